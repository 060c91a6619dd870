"""A restraint is said to stand beside two bays, but units go from one to the other over it, or in by it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from procgen.diagnostics import Related, Severity
from procgen.lint.lanes import Hop, lane_hops
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold, Restraint
from procgen.model.station import Network
from procgen.model.words import OUTSIDE, LoadDirection, RestraintKind, Side

_ALONG = (RestraintKind.GUIDE, RestraintKind.RAIL)
"""What stands along the side of bays that follow each other, and in nobody's way."""


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """What can be moved and stands across a lane is `between` its two bays, not `beside` them."""
    hops = tuple(lane_hops(hold))
    for name, item in hold.restraints.items():
        if item.fixed or item.kind in _ALONG:
            continue
        hop = _over(item, hops)
        if hop is not None:
            yield Complaint(
                f"“{name}” is beside “{hop.start}” and “{hop.end}”, and a lane goes from one to the other:"
                " nothing says that it stops the unit there",
                item.place.child("beside"),
                f"where units pass over it, write between: [{hop.start}, {hop.end}] with what it stops; one"
                " that stands at their side is a guide or rail, or one item for each bay",
                (Related(hop.place, "the lane"),),
                (("item", name),),
            )
            continue
        hop = _in_the_doorway(item, hold, hops)
        if hop is not None:
            yield Complaint(
                f"“{name}” is beside “{hop.end}” and holds towards its door: nothing says that whatever comes"
                " in must pass it",
                item.place.child("beside"),
                f"write between: [{OUTSIDE}, {hop.end}] with stops: [in, out]",
                (Related(hop.place, "the lane"),),
                (("item", name),),
            )


def _over(item: Restraint, hops: tuple[Hop, ...]) -> Hop | None:
    """A hop between two of the bays that it stands beside."""
    joined = {frozenset((hop.start, hop.end)): hop for hop in hops}
    return next(
        (joined[pair] for pair in map(frozenset, combinations(item.beside, 2)) if pair in joined), None
    )


def _in_the_doorway(item: Restraint, hold: Hold, hops: tuple[Hop, ...]) -> Hop | None:
    """A hop in through a door on whose side it holds a unit; one that grips the base may stand anywhere."""
    if item.grips:
        return None
    for hop in hops:
        door = hold.doors.get(hold.bays[hop.end].door or "") if hop.start == OUTSIDE else None
        if door is None or hop.end not in item.beside:
            continue
        towards = LoadDirection.LEFT if door.side is Side.LEFT else LoadDirection.RIGHT
        if towards in item.rating:
            return hop
    return None


RULE = HoldRule("beside-in-the-way", Severity.WARNING, check)
