"""Where the names of bays and the marks of tie-down points stand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from procgen.draw.frame import TEXT, Box, Frame, around, text_width
from procgen.draw.obstacles import outline, ringed
from procgen.model.hold import Hold

_POINT = 9.0
"""Size of the mark of a tie-down point."""
_AROUND = sorted(
    ((du, dv) for du in range(-60, 61, 3) for dv in range(-60, 61, 3)),
    key=lambda off: (abs(off[0]) + abs(off[1]), off),
)
"""Where to look for room: nearest first."""


@dataclass(frozen=True, slots=True)
class TieDownMark:
    """The mark of a tie-down point, and the room of its name."""

    spot: Box
    label: Box


def larger(bays: Mapping[str, Box]) -> frozenset[str]:
    """The bays that lie over smaller ones: a pallet across two rows of containers."""
    return frozenset(
        name
        for name, box in bays.items()
        if any(box.overlaps(other) and _size(other) < _size(box) - 1 for other in bays.values())
    )


def _size(box: Box) -> float:
    return box.width * box.height


def bay_words(hold: Hold, name: str) -> str:
    """What stands in a bay's box: its name, and that it is loaded by hand where it is."""
    return f"{name} bulk" if hold.bays[name].bulk else name


def bay_names(
    hold: Hold, bays: Mapping[str, Box], spots: Mapping[str, Box], lines: list[Box]
) -> dict[str, Box]:
    """Each bay's name near its upper left corner, moved where a symbol, its ring, a line or another name is.

    The name of a bay that lies over smaller ones stands low in its middle, where it is nobody else's.
    """
    symbols, taken = list(spots.values()), [*ringed(spots.values()), *lines]
    names: dict[str, Box] = {}
    over = larger(bays)
    for name in sorted(bays, key=lambda one: one not in over):
        bay, width = bays[name], text_width(bay_words(hold, name), bold=True)
        wishes = [
            around(bay.left + 10 + width / 2 + du, bay.top + 15 + dv, width, TEXT)
            for dv in range(0, max(1, int(bay.height - 24)), 4)
            for du in range(0, max(1, int(bay.width - 18 - width)), 4)
        ]
        if name in over:
            u, _ = bay.middle
            low = range(0, max(1, int(bay.height / 2 - 28)), 3)
            wishes = [around(u, bay.bottom - 12 - dv, width, TEXT) for dv in low] + wishes
        wishes += [
            around(bay.left + 3 + width / 2 + du, bay.top + 8 + dv, width, TEXT)
            for dv in range(0, max(1, int(bay.height - 15)), 3)
            for du in range(0, max(1, int(bay.width - 5 - width)), 3)
        ]
        named = list(names.values())
        free = [box for box in wishes if not any(box.overlaps(other) for other in (*taken, *named))]
        if not free:
            free = [box for box in wishes if not any(box.overlaps(other) for other in (*symbols, *named))]
        names[name] = (free or wishes)[0]
    return {name: names[name] for name in bays}


def tie_down_marks(
    hold: Hold, frame: Frame, sheet: Box, taken: list[Box], walls: list[Box]
) -> dict[str, TieDownMark]:
    """A mark at every tie-down point, moved off what lies there; its name in the nearest free place."""
    found: dict[str, TieDownMark] = {}
    for name, point in (hold.tie_down.points if hold.tie_down is not None else {}).items():
        at = frame.box_of(float(point.x.si), float(point.x.si), float(point.y.si), float(point.y.si))
        width = text_width(name)
        spot = _near(at.left, at.top, _POINT, _POINT, sheet, taken)
        label = _near(spot.middle[0], spot.middle[1] - _POINT, width, TEXT, sheet, [*taken, *walls, spot])
        taken += [spot, label]
        found[name] = TieDownMark(spot, label)
    return found


def walls(floor: Box) -> list[Box]:
    """The thick lines around the floor, that a name had better not lie on."""
    return outline(floor, 2.5)


def _near(u: float, v: float, width: float, height: float, sheet: Box, taken: list[Box]) -> Box:
    for du, dv in _AROUND:
        box = around(u + du, v + dv, width, height)
        if box.within(sheet) and not any(box.overlaps(other) for other in taken):
            return box
    return around(u, v, width, height)
