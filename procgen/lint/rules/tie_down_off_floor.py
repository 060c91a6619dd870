"""A tie-down point lies where the hold is not."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each point along the floor, and across within the floor or the widest part of the cross-section."""
    floor = hold.floor.rectangle
    widest = (
        max((width.si for _, width in hold.cross_section.corners), default=0) if hold.cross_section else 0
    )
    low, high = min(floor.y.low.si, -widest / 2), max(floor.y.high.si, widest / 2)
    for point in hold.tie_down.points.values() if hold.tie_down else ():
        off_x = not floor.x.low <= point.x <= floor.x.high
        off_y = not low <= point.y.si <= high
        for axis, off, number, span in (("x", off_x, point.x, floor.x), ("y", off_y, point.y, floor.y)):
            if off:
                yield Complaint(
                    f"tie-down point “{point.name}” lies at {axis} = {number}, but the floor ends at"
                    f" {span.low} and {span.high}",
                    point.place.child(axis),
                    f"correct {axis} of the point or of the floor",
                    (Related(hold.floor.place.child(axis), "the floor"),),
                    (("item", point.name),),
                )


RULE = HoldRule("tie-down-off-floor", Severity.ERROR, check)
