"""Where the names of units and of touched restraints go: off all other text, symbols and lines.

A name goes to the first free place by what it names; one that finds none is left to the caption.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from procgen.draw.frame import LINE, TEXT, Box, around, text_width, wrapped


@dataclass(frozen=True, slots=True)
class Label:
    """Lines of text and the box they take; centred in it."""

    lines: tuple[str, ...]
    box: Box


_EDGE = 1.4
"""Half the width of a unit's outline."""
_SHIFTS = sorted(
    ((du, dv) for du in range(-60, 61, 2) for dv in range(-60, 61)),
    key=lambda off: (abs(off[0]) + abs(off[1]), off),
)


def name_in_unit(unit: Box, name: str, unit_type: str, taken: Sequence[Box]) -> Label | None:
    """A unit's name and type in its middle, or as near to it as nothing else stands, within the unit.

    Where there is no room for both in the unit, the name alone; None where not even for that.
    """
    lines = tuple(wrapped(name, unit.width - 12, bold=True))
    for text in dict.fromkeys((tuple(line for line in (*lines, unit_type) if line)[:3], lines[:3])):
        for box in _in_unit(unit, text):
            if box.within(unit.grown(-_EDGE)) and not any(box.overlaps(other) for other in taken):
                return Label(text, box)
    return None


def name_within(box: Box, title: str, taken: Sequence[Box]) -> Label | None:
    """A whole title in the middle of a box, or as near to it as nothing else stands; None without room."""
    for lines in dict.fromkeys(wrapped(title, box.width - off, bold=True) for off in (12, 4)):
        if " ".join(lines) != " ".join(title.split()):
            continue  # a word would be cut
        for place in _in_unit(box, lines):
            if place.within(box.grown(-1)) and not any(place.overlaps(other) for other in taken):
                return Label(lines, place)
    return None


def name_off_unit(unit: Box, name: str, taken: Sequence[Box]) -> Label:
    """A unit's name where it does not fit into the unit: as near as nothing else stands."""
    boxes = list(_in_unit(unit, (name,)))
    return Label((name,), next((b for b in boxes if not any(b.overlaps(o) for o in taken)), boxes[0]))


def _in_unit(unit: Box, text: tuple[str, ...]) -> Iterator[Box]:
    u, v = unit.middle
    width = max(text_width(line, bold=True) for line in text)
    for du, dv in _SHIFTS:
        yield around(u + du, v + 3 + dv, width, TEXT + LINE * (len(text) - 1) + 1)


def _wishes(nears: tuple[float, ...]) -> tuple[tuple[float, float, int, int, float], ...]:
    """Where a label may go: cost, slip along, side across, side along, distance; cheapest first."""
    slips = (0.0, 8.0, -8.0, 16.0, -16.0, 24.0, -24.0, 34.0, -34.0)
    found = []
    for near in nears:
        for slip in slips:
            found += [(near + abs(slip) * 0.5, slip, 0, side, near) for side in (1, -1)]
            found += [(near + 1 + abs(slip) * 0.5, slip, side, 0, near) for side in (1, -1)]
    return tuple(sorted(found, key=lambda wish: wish[0]))


_CLOSE = _wishes((4.0, 7.0, 12.0, 18.0))
_FAR = _wishes((24.0, 30.0, 38.0))
"""Where one ring alone shows what is meant, its name may stand further off."""


def name_beside(
    title: str, spot: Box, sheet: Box, taken: Sequence[Box], soft: Sequence[Box], *, far: bool = False
) -> Label | None:
    """A name in the nearest free place around a symbol, on one to three lines; off `soft` where it can be."""
    longest = max((text_width(word, bold=True) for word in title.split()), default=0.0)
    widths = [max(width, longest) for width in (200.0, 76.0, 48.0)]  # no word is cut
    texts = list(dict.fromkeys(wrapped(title, width, bold=True) for width in widths))
    for wishes in (_CLOSE, _FAR) if far else (_CLOSE,):
        for obstacles in ([*taken, *soft], taken):
            for lines in texts:
                wide = max(text_width(line, bold=True) for line in lines)
                high = TEXT + LINE * (len(lines) - 1) + 1
                places = (_place(spot, wide, high, wish) for wish in wishes)
                for box in places:
                    if box.within(sheet) and not any(box.overlaps(other) for other in obstacles):
                        return Label(lines, box)
    return None


def _place(spot: Box, wide: float, high: float, wish: tuple[float, float, int, int, float]) -> Box:
    u, v = spot.middle
    _, slip, across, down, near = wish
    if across:
        return around(u + across * (spot.width / 2 + near + wide / 2), v + slip, wide, high)
    return around(u + slip, v + down * (spot.height / 2 + near + high / 2), wide, high)
