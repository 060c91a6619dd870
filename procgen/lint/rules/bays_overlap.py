"""Two bays share floor and no layout is behind it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.stated import Rectangle, Span1
from procgen.model.station import Network

NEARLY = 8
"""Sizes that differ by less than this many percent count as equal. Pallets of 88 in and 96 in, the nearest
pair of sizes that a hold carries in two layouts, differ by 9 %."""


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Bays of one lane, or of nearly one size, that overlap; a big bay over several small ones is meant."""
    for one, other in combinations(hold.bays.values(), 2):
        if not one.rectangle.overlaps(other.rectangle):
            continue
        lane = any({one.name, other.name} <= set(lane.through) for lane in hold.lanes)
        if not lane and not _same_size(one.rectangle, other.rectangle):
            continue
        why = "though units pass one after the other along their lane" if lane else "and are of one size"
        yield Complaint(
            f"bays “{one.name}” and “{other.name}” share floor {why}",
            other.place.child("x"),
            "correct the x or y of one of them: where one ends the next may begin",
            (Related(one.place.child("x"), f"bay “{one.name}”"),),
            (("bay", other.name),),
        )


def _same_size(one: Rectangle, other: Rectangle) -> bool:
    pairs = ((_length(one.x), _length(other.x)), (_length(one.y), _length(other.y)))
    return all(100 * abs(a - b) < NEARLY * max(a, b) for a, b in pairs)


def _length(span: Span1) -> Fraction:
    return span.high.si - span.low.si


RULE = HoldRule("bays-overlap", Severity.ERROR, check)
