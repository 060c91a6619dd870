"""A zone may carry less than one position in it."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Combined limit of a zone against each position's own limit."""
    for zone in hold.zones.values():
        if zone.combined is None or zone.x is not None:
            continue
        for name in zone.positions:
            limits = [*hold.positions[name].max_mass.values()]
            above = next((stated for stated in limits if stated.quantity > zone.combined.quantity), None)
            if above is not None:
                yield Complaint(
                    f"zone “{zone.name}” may carry {zone.combined.quantity} in all, but its position “{name}”"
                    f" {above.quantity} alone",
                    zone.combined.place,
                    "correct one of the two",
                    (Related(above.place, f"the limit of “{name}”"),),
                    (("zone", zone.name), ("position", name)),
                )
                break


RULE = HoldRule("zone-below-position", Severity.WARNING, check)
