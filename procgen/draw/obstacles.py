"""What is drawn without text and no text may lie on: door lines, rails, platforms, rings, the way.

Half widths are those of the style sheet, with a little air.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise

from procgen.draw.edges import Edge
from procgen.draw.frame import Box

RING = 2.5
"""From a symbol to the ring around it."""
_RING_ROOM = RING + 1.1
_DOOR = 2.25
_RAIL = 1.5
_OUTLINE = 0.5
_WAY = 2.5


def ringed(spots: Iterable[Box]) -> list[Box]:
    """Symbols with the ring that may come around them."""
    return [spot.grown(_RING_ROOM) for spot in spots]


def outline(box: Box, half: float = _OUTLINE) -> list[Box]:
    """The four sides of a box, as wide as they are drawn."""
    corners = ((box.left, box.top, box.right, box.top), (box.left, box.bottom, box.right, box.bottom))
    sides = ((box.left, box.top, box.left, box.bottom), (box.right, box.top, box.right, box.bottom))
    return [Box(*line).grown(half) for line in (*corners, *sides)]


def rails(lines: Mapping[str, tuple[Edge, ...]]) -> list[Box]:
    """Restraints that are drawn as lines."""
    return [Box(*edge.start, *edge.end).grown(_RAIL) for edges in lines.values() for edge in edges]


def doors(door_lines: Mapping[str, Edge]) -> list[Box]:
    """The lines of the doors."""
    return [Box(*edge.start, *edge.end).grown(_DOOR) for edge in door_lines.values()]


def outlines(platforms: Mapping[str, Box]) -> list[Box]:
    """The dashed sides of the loader platforms."""
    return [side for box in platforms.values() for side in outline(box)]


def along(way: tuple[tuple[float, float], ...]) -> Iterator[Box]:
    """The pieces of the line along which a unit moves, with room for the tip."""
    for (u, v), (to_u, to_v) in pairwise(way):
        yield Box(min(u, to_u), min(v, to_v), max(u, to_u), max(v, to_v)).grown(_WAY)
