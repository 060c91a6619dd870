"""The line along which a unit moves: through the places it passes, off their middles and off their names."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product

from procgen.draw.frame import Box
from procgen.draw.obstacles import along

Way = tuple[tuple[float, float], ...]

_INSIDE = 13.0
"""How far inside the unit that moved the line ends."""
_NEAR = tuple(sign * off for off in (14.0, 18.0, 10.0, 22.0, 6.0, 25.0, 32.0, 40.0, 50.0) for sign in (1, -1))
_OFFS = tuple(product(_NEAR, _NEAR))
"""Off the middle, where the symbols on a shared edge and the units' names stand; the usual one first."""


def way_of(
    middles: Sequence[tuple[float, float]], goal: Box, bays: Sequence[Box], names: Sequence[Box]
) -> Way:
    """From the first of `middles` through the others into `goal`, over as few of `names` as can be.

    It stays within the `bays` that it passes.
    """
    points = [*middles, _end(middles[-1], goal)]
    level = _straight(points)
    best: tuple[int, Way] | None = None
    wide, high = min(bay.width for bay in bays) / 2 - 5, min(bay.height for bay in bays) / 2 - 5
    within = [(du, dv) for du, dv in _OFFS if abs(du) < wide and abs(dv) < high]
    for du, dv in within or _OFFS[:1]:
        way = tuple((u + du, v + dv) for u, v in level)
        struck = sum(piece.overlaps(name) for piece in along(way) for name in names)
        if best is None or struck < best[0]:
            best = struck, way
        if struck == 0:
            break
    return best[1] if best is not None else ()


def _end(last: tuple[float, float], goal: Box) -> tuple[float, float]:
    u, v = goal.middle
    from_u, from_v = last
    if abs(from_u - u) > abs(from_v - v):
        return (goal.right - _INSIDE, v) if from_u > u else (goal.left + _INSIDE, v)
    return (u, goal.bottom - _INSIDE) if from_v > v else (u, goal.top + _INSIDE)


def _straight(points: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """The points, each pulled level with the one before it where the two differ by a whisker."""
    level = points[:1]
    for u, v in points[1:]:
        last_u, last_v = level[-1]
        level.append((last_u if abs(u - last_u) < 2 else u, last_v if abs(v - last_v) < 2 else v))
    return level
