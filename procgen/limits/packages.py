"""The package table of each door of a hold (limits.md, section 6), in steps that people measure by."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from procgen.limits.doorway import package_table
from procgen.model.hold import Hold
from procgen.results.packages import CrossSection, Doorway, PackageTable
from procgen.units import Quantity, of

STEPS = 8
"""How many steps a table has at most, besides the door's own size."""


def package_tables(hold: Hold) -> Mapping[str, PackageTable]:
    """By door: the longest piece for each width and height, of every door whose wall is described, in a hold
    whose cross-section is.
    """
    if hold.cross_section is None:
        return {}
    section = CrossSection(hold.cross_section.corners)
    floor = hold.floor.rectangle.x
    length = of(floor.high.si - floor.low.si, "m")
    found: dict[str, PackageTable] = {}
    for door in hold.doors.values():
        if door.wall is None:
            continue
        from_end = of(max(door.x.low.si - floor.low.si, Fraction(0)), "m")
        opening = Doorway(door.clear_width, door.clear_height, door.wall, from_end)
        widths = _steps(door.clear_width)
        found[door.name] = package_table(opening, section, length, widths, _steps(door.clear_height))
    return found


def _steps(most: Quantity) -> list[Quantity]:
    """Whole decimetres up to a size, at most `STEPS` of them, and the size itself."""
    whole = int(most.si * 10)
    every = max(1, -(-whole // STEPS))
    return [*(of(step * 10, "cm") for step in range(every, whole, every)), most]
