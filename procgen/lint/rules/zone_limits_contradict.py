"""A zone may carry as much as, or more than, a zone that takes it in."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Combined limits of zones whose positions all lie in another zone too."""
    zones = [zone for zone in hold.zones.values() if zone.positions and zone.x is None]
    for index, zone in enumerate(zones):
        for other_index, whole in enumerate(zones):
            mine, theirs = set(zone.positions), set(whole.positions)
            within = mine < theirs or (mine == theirs and other_index < index)
            if zone.combined is None or whole.combined is None or not within:
                continue
            if zone.combined.quantity > whole.combined.quantity or mine == theirs:
                yield Complaint(
                    f"zone “{zone.name}” may carry {zone.combined.quantity}, but zone “{whole.name}”, which"
                    f" has {'the same positions' if mine == theirs else 'all its positions and more'},"
                    f" {whole.combined.quantity}",
                    zone.combined.place,
                    "correct one of the two, or delete the one that says nothing",
                    (Related(whole.combined.place, f"zone “{whole.name}”"),),
                    (("zone", zone.name),),
                )


RULE = HoldRule("zone-limits-contradict", Severity.WARNING, check)
