"""A position is said to fit a contour that no unit type has."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each contour code of a position is that of some unit type."""
    known = sorted({unit_type.contour for unit_type in network.unit_types.values() if not unit_type.loose})
    for position in hold.positions.values():
        for index, code in enumerate(position.contours):
            if code not in known:
                yield Complaint(
                    f"no unit type has the contour “{code}” that position “{position.name}” fits",
                    position.place.child("contours", index),
                    f"the contours of the fleet are {', '.join(known)}; correct the code or delete it",
                    subject=(("position", position.name),),
                )


RULE = HoldRule("contour-unknown", Severity.WARNING, check)
