"""A door is larger than the hold or than its own edges, or reaches beyond the floor."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.units import of


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Edges within the floor, clear width within the edges, clear height near the hold's."""
    floor = hold.floor
    for door in hold.doors.values():
        edges, subject = door.x, (("item", door.name),)
        if edges.low < floor.rectangle.x.low or edges.high > floor.rectangle.x.high:
            yield Complaint(
                f"“{door.name}” opens from {edges.low} to {edges.high}, but the floor ends at"
                f" {floor.rectangle.x.low} and {floor.rectangle.x.high}",
                door.place.child("x"),
                "correct x of the door or of the floor",
                (Related(floor.place.child("x"), "the floor"),),
                subject,
            )
        if door.clear_width.si > edges.high.si - edges.low.si:
            yield Complaint(
                f"“{door.name}” is {door.clear_width} wide, but its edges are"
                f" {of(edges.high.si - edges.low.si, 'm')} apart",
                door.place.child("clear", "width"),
                "correct the clear width or the edges",
                (Related(door.place.child("x"), "the edges"),),
                subject,
            )
        # Nets and linings may hang lower inside than the door's frame: a quarter more is a slip.
        if door.clear_height.si * 4 > floor.height.si * 5:
            yield Complaint(
                f"“{door.name}” is {door.clear_height} high, but the hold only {floor.height}",
                door.place.child("clear", "height"),
                "correct one of the two; what goes through must also stand inside",
                (Related(floor.place.child("height"), "the hold's clear height"),),
                subject,
            )


RULE = HoldRule("door-larger-than-hold", Severity.WARNING, check)
