"""A combined limit is above everything its positions may carry."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.units import of


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Combined limit of a zone against the sum of its positions' limits."""
    for zone in hold.zones.values():
        if zone.combined is None or not zone.positions or zone.x is not None:
            continue
        most = [
            max(hold.positions[name].max_mass.values(), key=lambda stated: stated.quantity.si)
            for name in dict.fromkeys(zone.positions)
        ]
        total = of(sum((stated.quantity.si for stated in most), Fraction()), "kg")
        total = total.to(zone.combined.quantity.unit.symbol)
        if zone.combined.quantity > total:
            yield Complaint(
                f"zone “{zone.name}” may carry {zone.combined.quantity} in all, but its positions"
                " together only"
                f" {total.down()}: the limit says nothing",
                zone.combined.place,
                "look for a digit too many or a position left out, or delete the limit",
                tuple(Related(stated.place, str(stated.quantity)) for stated in most),
                (("zone", zone.name),),
            )


RULE = HoldRule("zone-never-binds", Severity.WARNING, check)
