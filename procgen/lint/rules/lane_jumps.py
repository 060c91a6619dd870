"""A lane leaps: over another bay, over a gap as long as a bay, or sideways."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.lanes import Hop, first_wrong_hop, hops_of
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.stated import Span1
from procgen.model.station import Network
from procgen.model.words import OUTSIDE, Travel
from procgen.units import of


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """The first hop of each lane whose bays are not neighbours; the wrong way is another rule's."""
    for lane in hold.lanes:
        if first_wrong_hop(hold, lane) is not None:
            continue
        for hop in hops_of(lane):
            if OUTSIDE in (hop.start, hop.end):
                continue
            what = _leap(hold, hop)
            if what:
                yield Complaint(
                    f"the lane jumps from “{hop.start}” to “{hop.end}”: {what}",
                    hop.place,
                    "name every bay that a unit passes, in order, or correct x and y of the bays",
                    (
                        Related(hold.bays[hop.start].place, f"bay “{hop.start}”"),
                        Related(hold.bays[hop.end].place, f"bay “{hop.end}”"),
                    ),
                    (("bay", hop.end),),
                )
                break


def _leap(hold: Hold, hop: Hop) -> str:
    start, end = hold.bays[hop.start].rectangle, hold.bays[hop.end].rectangle
    lengthwise = hop.go in (Travel.FORWARD, Travel.AFT)
    along, across = (
        ((start.x, end.x), (start.y, end.y)) if lengthwise else ((start.y, end.y), (start.x, end.x))
    )
    if not (across[0].low < across[1].high and across[1].low < across[0].high):
        return "they are not in one line"
    low, high = sorted(along, key=lambda span: span.low.si)
    between = _between(hold, hop, Span1(low.high, high.low), across[0])
    if between is not None:
        return f"“{between}” lies between them"
    gap = high.low.si - low.high.si
    if gap >= min(span.high.si - span.low.si for span in along):
        return f"the gap of {of(gap, 'm').down(2)} between them is as long as a bay"
    return ""


def _between(hold: Hold, hop: Hop, gap: Span1, across: Span1) -> str | None:
    """A bay that lies in the gap and in the line of the lane."""
    lengthwise = hop.go in (Travel.FORWARD, Travel.AFT)
    for bay in hold.bays.values():
        mine, side = (bay.rectangle.x, bay.rectangle.y) if lengthwise else (bay.rectangle.y, bay.rectangle.x)
        inside = gap.low <= mine.low and mine.high <= gap.high
        if inside and side.low < across.high and across.low < side.high:
            return bay.name
    return None


RULE = HoldRule("lane-jumps", Severity.ERROR, check)
