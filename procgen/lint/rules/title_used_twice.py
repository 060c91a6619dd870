"""Two procedures of one station have one title."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, NetworkRule
from procgen.model.station import Network, Station
from procgen.model.words import Operation


def check(network: Network) -> Iterator[Complaint]:
    """No written procedure is titled like a derived one of its station, or like another written one."""
    for station in network.stations.values():
        derived = _derived(network, station)
        seen: dict[str, Related] = {}
        for procedure in station.procedures:
            title = procedure.title.casefold()
            place = procedure.place.child("title")
            if title and (title in derived or title in seen):
                other = "a written one" if title in seen else "the derived one"
                yield Complaint(
                    f"“{procedure.title}” is the title of “{procedure.name}” and of {other}; a loader could"
                    " not tell the pages apart",
                    place,
                    "say in the title what it is for, as in “Long pallet into 13P”",
                    (seen[title],) if title in seen else (),
                    (("procedure", procedure.name), ("hold", procedure.hold)),
                )
            seen.setdefault(title, Related(place, "the first one"))


def _derived(network: Network, station: Station) -> frozenset[str]:
    """The titles of what is derived for a station."""
    holds = [network.holds[name] for name in station.holds if name in network.holds]
    return frozenset(f"{hold.title}: {operation}".casefold() for hold in holds for operation in Operation)


RULE = NetworkRule("title-used-twice", Severity.WARNING, check)
