"""A doorway bay does not lie in its doorway."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Bay, Hold
from procgen.model.station import Network
from procgen.model.words import Side


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each bay that names a door lies between the door's edges, with no other bay between it and the door.

    A bulk section may be longer than its door: its pieces go in one by one. Some of it lies in the doorway.
    """
    for bay in hold.bays.values():
        if bay.door is None:
            continue
        door = hold.doors[bay.door]
        mine = bay.rectangle.x
        outside = mine.low < door.x.low or mine.high > door.x.high
        if bay.bulk:
            outside = mine.high <= door.x.low or mine.low >= door.x.high
        if outside:
            yield Complaint(
                f"bay “{bay.name}” reaches from {mine.low} to {mine.high},"
                f" but “{door.name}” opens from {door.x.low} to {door.x.high}",
                bay.place.child("x"),
                "correct x of the bay or of the door, or name the bay that lies in the doorway",
                (Related(door.place.child("x"), f"the edges of “{door.name}”"),),
                (("bay", bay.name),),
            )
            continue
        other = _in_between(hold, bay, door.side)
        if other is not None:
            yield Complaint(
                f"bay “{other.name}” lies between bay “{bay.name}” and “{door.name}”",
                bay.place.child("door"),
                f"give the door to “{other.name}”, or correct the side of the door",
                (Related(door.place.child("side"), f"“{door.name}” is on the {door.side}"),),
                (("bay", bay.name),),
            )


def _in_between(hold: Hold, bay: Bay, side: Side) -> Bay | None:
    mine = bay.rectangle
    for other in hold.bays.values():
        theirs = other.rectangle
        abreast = theirs.x.low < mine.x.high and mine.x.low < theirs.x.high
        nearer = theirs.y.low >= mine.y.high if side is Side.RIGHT else theirs.y.high <= mine.y.low
        if abreast and nearer:
            return other
    return None


RULE = HoldRule("door-misses-bay", Severity.ERROR, check)
