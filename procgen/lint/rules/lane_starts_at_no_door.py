"""A lane comes from outside into a bay that lies at no door."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.lanes import lane_hops
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.words import OUTSIDE


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Every hop from or to outside has its other end at a door."""
    for hop in lane_hops(hold):
        if OUTSIDE not in (hop.start, hop.end):
            continue
        bay = hop.end if hop.start == OUTSIDE else hop.start
        if bay != OUTSIDE and hold.bays[bay].door is None:
            yield Complaint(
                f"the lane joins outside to bay “{bay}”, which lies at no door",
                hop.place,
                f"write the door at bay “{bay}”, or let the lane begin at the bay in the doorway",
                (Related(hold.bays[bay].place, f"bay “{bay}”"),),
                (("bay", bay),),
            )


RULE = HoldRule("lane-starts-at-no-door", Severity.ERROR, check)
