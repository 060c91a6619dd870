"""A restraint between two bays stops no direction that a unit can take between them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from procgen.diagnostics import Severity
from procgen.lint.lanes import all_hops
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.words import Travel


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """What a restraint between two bays stops is some direction of the lane it stands in."""
    for name, item in hold.restraints.items():
        if item.between is None or not item.stops:
            continue
        ways = {hop.go for hop in all_hops(hold) if {hop.start, hop.end} == set(item.between)}
        if ways and not ways & item.stops:
            yield Complaint(
                f"“{name}” stops {_list(item.stops)}, but between “{item.between[0]}” and “{item.between[1]}”"
                f" units go {_list(ways)}",
                item.place.child("stops"),
                f"write stops: [{', '.join(way for way in Travel if way in ways)}], or correct `between`",
                subject=(("item", name),),
            )


def _list(ways: Iterable[Travel]) -> str:
    return " and ".join(way for way in Travel if way in ways)


RULE = HoldRule("stops-across-lane", Severity.ERROR, check)
