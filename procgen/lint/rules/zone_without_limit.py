"""A zone limits nothing."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each zone has a limit."""
    for zone in hold.zones.values():
        if not any((zone.combined, zone.running, zone.asymmetry, zone.adjacent)):
            yield Complaint(
                f"zone “{zone.name}” limits nothing",
                zone.place.key(),
                "write `combined`, `running`, `asymmetry` or `adjacent` with its source, or delete the zone",
                subject=(("zone", zone.name),),
            )


RULE = HoldRule("zone-without-limit", Severity.ADVICE, check)
