"""A guide guides a move that no lane has."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.lanes import all_hops
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each move of `guides` is a hop of some lane, there or back."""
    joined = {(hop.start, hop.end) for hop in all_hops(hold)}
    for name, item in hold.restraints.items():
        for index, move in enumerate(item.guides):
            if move not in joined:
                yield Complaint(
                    f"“{name}” guides the move from “{move[0]}” to “{move[1]}”, which no lane has",
                    item.place.child("guides", index),
                    "name two places that follow each other in a lane, in the order in which the unit goes",
                    subject=(("item", name),),
                )


RULE = HoldRule("guides-no-lane", Severity.ERROR, check)
