"""A station for operation works a hold whose data are invented."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, NetworkRule
from procgen.model.station import Network


def check(network: Network) -> Iterator[Complaint]:
    """A station that works a demonstration hold is marked as one."""
    for station in network.stations.values():
        for index, name in enumerate(station.holds):
            hold = network.holds.get(name)
            if hold is not None and hold.demonstration and not station.demonstration:
                yield Complaint(
                    f"station “{station.code}” is not marked as a demonstration, but works “{name}”,"
                    " which is one",
                    station.place.child("holds", index),
                    "write `demonstration: true` at the station: its pages then say not for operational use",
                    (Related(hold.place.child("demonstration"), f"hold “{name}”"),),
                    (("station", station.code), ("hold", name)),
                )


RULE = NetworkRule("demonstration-unmarked", Severity.ERROR, check)
