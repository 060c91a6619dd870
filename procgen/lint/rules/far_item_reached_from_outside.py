"""An item far from every door is said to be worked from outside."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.words import OUTSIDE, Stand


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """A hand-moved item reached from outside has a bay that lies, in x, in a doorway."""
    for item in hold.restraints.values():
        if not item.by_hand or item.reached_from is not Stand.OUTSIDE:
            continue
        places = (*(item.between or ()), *item.beside)
        if OUTSIDE in places or any(_in_doorway(hold, name) for name in places):
            continue
        yield Complaint(
            f"“{item.name}” is reached from outside, but none of its bays ({', '.join(places)}) lies in a"
            " doorway",
            item.place.child("reached-from"),
            "write “reached-from: inside”, or correct its bays",
            subject=(("item", item.name),),
        )


def _in_doorway(hold: Hold, bay: str) -> bool:
    span = hold.bays[bay].rectangle.x
    return any(span.low < door.x.high and door.x.low < span.high for door in hold.doors.values())


RULE = HoldRule("far-item-reached-from-outside", Severity.WARNING, check)
