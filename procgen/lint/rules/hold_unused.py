"""A hold is worked by no station."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.rule import Complaint, NetworkRule
from procgen.model.station import Network


def check(network: Network) -> Iterator[Complaint]:
    """Each hold is worked by some station."""
    worked = {name for station in network.stations.values() for name in station.holds}
    for name, hold in network.holds.items():
        if name not in worked:
            yield Complaint(
                f"no station works hold “{name}”",
                hold.place.child("hold"),
                "name it in `holds` of a station; until then nothing is published of it",
                subject=(("hold", name),),
            )


RULE = NetworkRule("hold-unused", Severity.ADVICE, check, whole=True)
