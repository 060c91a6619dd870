"""Where a name goes on a layout: the first free place beside what it names, or in the middle of a unit."""

from __future__ import annotations

from dataclasses import dataclass

from procgen.draw.frame import LINE, TEXT, Box, around, text_width, wrapped
from procgen.draw.layout import Layout


@dataclass(frozen=True, slots=True)
class Label:
    """Lines of text and the box they take; centred in it."""

    lines: tuple[str, ...]
    box: Box


_SHIFTS = sorted(
    ((du, dv) for du in range(-60, 61, 4) for dv in range(-60, 61, 4)),
    key=lambda off: (abs(off[0]) + abs(off[1]), off),
)


def in_unit(unit: Box, width: float, height: float, taken: list[Box]) -> Box:
    """Room for a unit's name: in its middle, or as near to it as no symbol and no bay's name stands."""
    u, v = unit.middle
    middle = around(u, v + 3, width, height)
    if not any(middle.overlaps(other) for other in taken):
        return middle
    shifted = [around(u + du, v + 3 + dv, width, height) for du, dv in _SHIFTS]
    free = [box for box in shifted if not any(box.overlaps(other) for other in taken)]
    inside = [box for box in free if box.within(unit)]
    return next(iter([*inside, *free]), middle)


def soft_lines(plan: Layout) -> list[Box]:
    """Thick lines that a label had better not lie on: walls and rails."""
    f = plan.floor
    walls = [
        Box(f.left - 2, f.top, f.left + 2, f.bottom),
        Box(f.right - 2, f.top, f.right + 2, f.bottom),
        Box(f.left, f.top - 2, f.right, f.top + 2),
        Box(f.left, f.bottom - 2, f.right, f.bottom + 2),
    ]
    rails = [Box(*edge.start, *edge.end).grown(1.5) for edges in plan.lines.values() for edge in edges]
    return walls + rails


def _wishes() -> tuple[tuple[float, float, int, int, float], ...]:
    """Where a label may go: cost, slip along, side across, side along, distance; cheapest first."""
    slips = (0.0, 8.0, -8.0, 16.0, -16.0, 24.0, -24.0, 34.0, -34.0)
    found = []
    for near in (3.0, 7.0, 12.0, 18.0):
        for slip in slips:
            found += [(near + abs(slip) * 0.5, slip, 0, side, near) for side in (1, -1)]
            found += [(near + 1 + abs(slip) * 0.5, slip, side, 0, near) for side in (1, -1)]
    return tuple(sorted(found, key=lambda wish: wish[0]))


_WISHES = _wishes()


def named(title: str, spot: Box, sheet: Box, taken: list[Box], soft: list[Box]) -> Label | None:
    """A label in the nearest free place around a symbol, on one to three lines."""
    for obstacles in ([*taken, *soft], taken):
        for lines in dict.fromkeys(wrapped(title, width, bold=True) for width in (200.0, 76.0, 48.0)):
            wide = max(text_width(line, bold=True) for line in lines)
            high = TEXT + LINE * (len(lines) - 1) + 1
            label = _free(spot, wide, high, sheet, obstacles)
            if label is not None:
                return Label(lines, label)
    return None


def _free(spot: Box, wide: float, high: float, sheet: Box, obstacles: list[Box]) -> Box | None:
    u, v = spot.middle
    for _, slip, across, along, near in _WISHES:
        if across:
            at = (u + across * (spot.width / 2 + near + wide / 2), v + slip)
        else:
            at = (u + slip, v + along * (spot.height / 2 + near + high / 2))
        box = around(*at, wide, high)
        if box.within(sheet) and not any(box.overlaps(other) for other in obstacles):
            return box
    return None
