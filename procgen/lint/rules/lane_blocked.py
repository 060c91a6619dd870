"""A restraint stands in a lane and nothing gets a unit past it."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.lanes import all_hops
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.words import RestraintState


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each restraint in a lane can be lowered or overridden in every direction that it stops."""
    for name, item in hold.restraints.items():
        if item.between is None or item.by_hand or item.lowered_by:
            continue
        if not item.fixed and item.at_rest is RestraintState.LOWERED:
            continue
        for hop in all_hops(hold):
            if {hop.start, hop.end} == set(item.between) and hop.go in item.stops - item.override:
                yield Complaint(
                    f"no unit gets {hop.go} past “{name}”: it is"
                    f" {'fixed' if item.fixed else 'moved by nothing'}"
                    f" and not overridden {hop.go}",
                    item.place.child("stops"),
                    "say who moves it (`moved-by: hand`, `lowered-by`), or put the direction in `override`",
                    (Related(hop.place, f"the lane from “{hop.start}” to “{hop.end}”"),),
                    (("item", name),),
                )
                break


RULE = HoldRule("lane-blocked", Severity.ERROR, check)
