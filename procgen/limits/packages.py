"""The package table of each door of a hold (limits.md, section 6), in steps that people measure by."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from procgen.diagnostics import NOWHERE, Place
from procgen.limits.doorway import package_table, ways
from procgen.model.hold import Door, Hold
from procgen.model.stated import SourceRef
from procgen.results.packages import CrossSection, Doorway, DoorWays, PackageTable
from procgen.units import Quantity, of

STEPS = 8
"""How many steps a table has at most, besides the door's own size."""


def package_tables(hold: Hold) -> Mapping[str, PackageTable]:
    """By door: the longest piece for each width and height, of every door whose wall is described, in a hold
    whose cross-section is.
    """
    if hold.cross_section is None:
        return {}
    section, length = CrossSection(hold.cross_section.corners), inside_length(hold)
    return {
        door.name: package_table(opening, section, length, *_sizes(door)) for door, opening in doorways(hold)
    }


def door_ways(hold: Hold) -> tuple[DoorWays, ...]:
    """The same with every way in, and where the numbers come from; none where there is no such table."""
    if hold.cross_section is None:
        return ()
    section, length = CrossSection(hold.cross_section.corners), inside_length(hold)
    found = []
    for door, opening in doorways(hold):
        widths, heights = _sizes(door)
        pieces = tuple(
            ways(opening, section, length, width, height) for height in heights for width in widths
        )
        found.append(DoorWays(door.name, pieces, *origins(hold, door)))
    return tuple(found)


def doorways(hold: Hold) -> Iterator[tuple[Door, Doorway]]:
    """Every door whose wall is described, with its opening."""
    start = hold.floor.rectangle.x.low.si
    for door in hold.doors.values():
        if door.wall is not None:
            from_end = of(max(door.x.low.si - start, Fraction(0)), "m")
            yield door, Doorway(door.clear_width, door.clear_height, door.wall, from_end)


def inside_length(hold: Hold) -> Quantity:
    """The length of the floor of a hold."""
    floor = hold.floor.rectangle.x
    return of(floor.high.si - floor.low.si, "m")


def origins(hold: Hold, door: Door) -> tuple[tuple[SourceRef, ...], tuple[Place, ...]]:
    """The sources and places of what goes through a door: its opening and wall, cross-section and floor."""
    outline = hold.cross_section
    places = [door.place.child("clear"), door.place.child("wall")] if door.place != NOWHERE else []
    places += [outline.place] if outline is not None else []
    sources = (outline.source,) if outline is not None and outline.source is not None else ()
    return sources, tuple(place for place in (*places, hold.floor.place) if place != NOWHERE)


def _sizes(door: Door) -> tuple[list[Quantity], list[Quantity]]:
    return _steps(door.clear_width), _steps(door.clear_height)


def _steps(most: Quantity) -> list[Quantity]:
    """Whole decimetres up to a size, at most `STEPS` of them, and the size itself."""
    whole = int(most.si * 10)
    every = max(1, -(-whole // STEPS))
    return [*(of(step * 10, "cm") for step in range(every, whole, every)), most]
