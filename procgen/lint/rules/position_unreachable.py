"""No lane leads to a position."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.lanes import reachable
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Some chain of lanes leads from outside to every position."""
    reached = reachable(hold)
    for name, position in hold.positions.items():
        if name not in reached:
            yield Complaint(
                f"no lane leads from outside to position “{name}”",
                hold.bays[name].place.key(),
                f"add “{name}” to the lane that runs through it",
                tuple(Related(lane.place, "a lane") for lane in hold.lanes),
                (("position", position.name),),
            )


RULE = HoldRule("position-unreachable", Severity.ERROR, check)
