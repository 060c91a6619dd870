"""No unit type of the fleet fits a position."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.fit import why_not
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each position takes some unit type; one whose contours are all unknown is another rule's."""
    known = {unit_type.contour for unit_type in network.unit_types.values()}
    for position in hold.positions.values():
        if position.contours and not known & set(position.contours):
            continue
        reasons = [why_not(hold, position, unit_type) for unit_type in network.unit_types.values()]
        if all(reasons):
            yield Complaint(
                f"no unit type of the fleet fits position “{position.name}”: {'; '.join(reasons)}",
                position.place.key(),
                "correct the bay, `max`, `contours` or `height` of the position, or the unit types",
                tuple(Related(unit_type.place, unit_type.code) for unit_type in network.unit_types.values()),
                (("position", position.name),),
            )


RULE = HoldRule("position-fits-no-unit", Severity.WARNING, check)
