"""A station's wind limit is above that of a door it works."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, NetworkRule
from procgen.model.hold import Door
from procgen.model.station import Network, Station


def check(network: Network) -> Iterator[Complaint]:
    """A station may tighten the wind limits of the doors it works, never loosen them."""
    for station in network.stations.values():
        for name in station.holds:
            for door in network.holds[name].doors.values():
                yield from _looser(station, door)


def _looser(station: Station, door: Door) -> Iterator[Complaint]:
    if station.wind is None:
        return
    for key, own, stated in (
        ("opening", station.wind.opening, door.wind.opening),
        ("open", station.wind.open, door.wind.open),
    ):
        if own is not None and stated is not None and stated.quantity < own:
            yield Complaint(
                f"station “{station.code}” allows {own}, but the “{door.title}” may take {stated.quantity}",
                station.wind.place.child(key),
                f"write at most {stated.quantity}, or leave it out: the door's own limit holds then",
                (Related(stated.place, "the limit of the door"),),
                (("item", door.name),),
            )


RULE = NetworkRule("station-loosens-wind", Severity.ERROR, check)
