"""A restraint is said to stand beside two bays, but units go from one to the other over it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from procgen.diagnostics import Related, Severity
from procgen.lint.lanes import lane_hops
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.words import RestraintKind

_ALONG = (RestraintKind.GUIDE, RestraintKind.RAIL)
"""What stands along the side of bays that follow each other, and in nobody's way."""


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """What can be moved and stands across a lane is `between` its two bays, not `beside` them."""
    joined = {frozenset((hop.start, hop.end)): hop for hop in lane_hops(hold)}
    for name, item in hold.restraints.items():
        if item.fixed or item.kind in _ALONG:
            continue
        hop = next(
            (joined[pair] for pair in map(frozenset, combinations(item.beside, 2)) if pair in joined), None
        )
        if hop is not None:
            yield Complaint(
                f"“{name}” is beside “{hop.start}” and “{hop.end}”, and a lane goes from one to the other:"
                " nothing says that it stops the unit there",
                item.place.child("beside"),
                f"write between: [{hop.start}, {hop.end}] with what it stops",
                (Related(hop.place, "the lane"),),
                (("item", name),),
            )


RULE = HoldRule("beside-in-the-way", Severity.WARNING, check)
