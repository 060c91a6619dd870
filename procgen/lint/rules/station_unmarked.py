"""A station is not marked as a demonstration, but works a hold whose data are invented."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, NetworkRule
from procgen.model.station import Network


def check(network: Network) -> Iterator[Complaint]:
    """A station that works a demonstration hold is marked as one."""
    for station in network.stations.values():
        invented = [
            hold for name in station.holds if (hold := network.holds.get(name)) and hold.demonstration
        ]
        if invented and not station.demonstration:
            names = ", ".join(f"“{hold.name}”" for hold in invented)
            yield Complaint(
                f"station “{station.code}” is not marked as a demonstration, but the data of {names} are"
                " invented",
                station.place.child("demonstration"),
                "write `demonstration: true`: its pages then say that they are not for operational use",
                tuple(Related(hold.place.child("demonstration"), f"hold “{hold.name}”") for hold in invented),
                (("station", station.code),),
            )


RULE = NetworkRule("station-unmarked", Severity.ERROR, check)
