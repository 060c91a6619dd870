"""A lane runs the other way than it says."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.lanes import first_wrong_hop
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.words import Travel


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """The first hop of each lane whose bays lie the wrong way round for the lane's direction."""
    for lane in hold.lanes:
        hop = first_wrong_hop(hold, lane)
        if hop is not None:
            yield Complaint(
                f"the lane goes {hop.go}, but “{hop.end}” lies {_where(hop.go)} “{hop.start}”",
                hop.place,
                f"put the bays in the order in which a unit going {hop.go} meets them, or correct `go`"
                " or x and y",
                (
                    Related(hold.bays[hop.start].place, f"bay “{hop.start}”"),
                    Related(hold.bays[hop.end].place, f"bay “{hop.end}”"),
                ),
                (("bay", hop.end),),
            )


def _where(go: Travel) -> str:
    words = {
        Travel.FORWARD: "not forward of",
        Travel.AFT: "not aft of",
        Travel.IN: "not further from the door than",
        Travel.OUT: "not nearer to the door than",
    }
    return words[go]


RULE = HoldRule("lane-wrong-way", Severity.ERROR, check)
