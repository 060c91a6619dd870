"""Whether one upright piece goes through the doors of a hold, and in which ways (limits.md, section 6)."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.limits.doorway import ways
from procgen.limits.packages import doorways, inside_length, origins
from procgen.model.hold import Door, Hold
from procgen.results.figures import Figure, FigureRow, FigureTable, Other
from procgen.results.packages import CrossSection, Doorway, Longest
from procgen.units import Quantity

NOT_DESCRIBED = "The description says no cross-section of the hold, or no wall of a door."
_REMARKS = (
    "The piece is upright and rigid, and is turned in plan only.",
    "How it is carried, and whether it may stand where it ends, are questions of their own.",
)
_WAYS = {
    "straight": "length first, not turned",
    "sideways": "its long side along the hold, not turned",
    "turned": "length first, then turned",
}


def through_doors_table(hold: Hold, length: Quantity, width: Quantity, height: Quantity) -> FigureTable:
    """For each door: the longest piece as wide and high as this one, and whether this one is as long."""
    long, wide = max(length, width), min(length, width)
    section = hold.cross_section
    rows: tuple[FigureRow, ...] = ()
    if section is not None:
        across = CrossSection(section.corners)
        rows = tuple(_row(hold, *one, across, (long, wide, height)) for one in doorways(hold))
    return FigureTable(
        name="through-doors",
        title=f"A piece {long} long, {wide} wide and {height} high through the doors",
        heads=("door",),
        columns=("longest so wide and high",),
        rows=rows,
        remarks=_REMARKS if rows else (NOT_DESCRIBED,),
    )


def _row(
    hold: Hold,
    door: Door,
    opening: Doorway,
    section: CrossSection,
    piece: tuple[Quantity, Quantity, Quantity],
) -> FigureRow:
    long, wide, height = piece
    found = ways(opening, section, inside_length(hold), wide, height)
    sources, places = origins(hold, door)
    best, *rest = found
    if best.length is None:
        no = Figure(reasons=(f"{door.title}: {best.why}",), met=False, sources=sources, places=places)
        return FigureRow((door.title,), (no,))
    figure = Figure(
        number=best.length,
        governs=_WAYS[best.way],
        reckoning=best.why,
        others=tuple(_others(rest)),
        met=long <= best.length,
        sources=sources,
        places=places,
    )
    return FigureRow((door.title,), (figure,))


def _others(rest: list[Longest]) -> Iterator[Other]:
    for one in rest:
        value = "no piece as long as wide" if one.length is None else one.length.down()
        yield Other(_WAYS[one.way], value, one.why)
