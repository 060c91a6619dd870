"""From metres in the hold to places on the sheet, and how much room text takes.

A sheet is measured in its own units, one to a CSS pixel on a phone 320 pixels wide. Upright, forward is at
the top of the sheet and the aircraft's right is at its right; lying, forward is at the left and the
aircraft's right is at the top.
"""

from __future__ import annotations

from dataclasses import dataclass

from procgen.model.stated import Rectangle, Span1

SHEET_WIDTH = 296.0
"""The width that fits a phone of 320 CSS pixels with a margin of 12 on each side."""

TEXT = 10.0
"""Height of every text on a sheet; at 320 pixels it is still over 9 pixels."""

LEAST_TEXT = 9.0
"""The least height of text in pixels, as a view is shown."""

MANUAL_ROOM = 680.0
"""The least width in pixels that a page of the manual gives a lying view."""

COMPARED_ROOM = 530.0
"""The least width in pixels that a comparison gives each of two lying views."""

LINE = 12.0
"""Distance from one line of text to the next."""


def widest(room: float) -> float:
    """The widest sheet whose text is still legible where it is fitted into so many pixels."""
    return room * TEXT / LEAST_TEXT


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle on the sheet; `v` grows downwards."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """Extent from left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Extent from top to bottom."""
        return self.bottom - self.top

    @property
    def middle(self) -> tuple[float, float]:
        """The centre."""
        return (self.left + self.right) / 2, (self.top + self.bottom) / 2

    def overlaps(self, other: Box) -> bool:
        """Whether the two share area (touching edges share none)."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def within(self, other: Box) -> bool:
        """Whether this box lies wholly in `other`."""
        return (
            other.left <= self.left
            and self.right <= other.right
            and other.top <= self.top
            and self.bottom <= other.bottom
        )

    def grown(self, by: float) -> Box:
        """The box with a margin of `by` on every side."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)


def around(u: float, v: float, width: float, height: float) -> Box:
    """A box of this size with its centre at `u`, `v`."""
    return Box(u - width / 2, v - height / 2, u + width / 2, v + height / 2)


def metres(span: Span1) -> tuple[float, float]:
    """Low and high end of a span in metres, for drawing only."""
    return float(span.low.si), float(span.high.si)


@dataclass(frozen=True, slots=True)
class Frame:
    """How the hold lies on the sheet: `left` and `top` are where the floor's box starts."""

    upright: bool
    scale: float
    floor: Rectangle
    left: float
    top: float

    def box(self, rectangle: Rectangle) -> Box:
        """A rectangle of the hold's floor on the sheet."""
        x_low, x_high = metres(rectangle.x)
        y_low, y_high = metres(rectangle.y)
        return self.box_of(x_low, x_high, y_low, y_high)

    def box_of(self, x_low: float, x_high: float, y_low: float, y_high: float) -> Box:
        """The same from metres."""
        floor_x, _ = metres(self.floor.x)
        floor_y_low, floor_y_high = metres(self.floor.y)
        s = self.scale
        if self.upright:
            return Box(
                self.left + (y_low - floor_y_low) * s,
                self.top + (x_low - floor_x) * s,
                self.left + (y_high - floor_y_low) * s,
                self.top + (x_high - floor_x) * s,
            )
        return Box(
            self.left + (x_low - floor_x) * s,
            self.top + (floor_y_high - y_high) * s,
            self.left + (x_high - floor_x) * s,
            self.top + (floor_y_high - y_low) * s,
        )

    def edge(self, direction: str) -> str:
        """Which edge of a box on the sheet faces `forward`, `aft`, `left` or `right` of the aircraft."""
        if self.upright:
            return {"forward": "top", "aft": "bottom", "left": "left", "right": "right"}[direction]
        return {"forward": "left", "aft": "right", "left": "bottom", "right": "top"}[direction]


_NARROW = frozenset("ijlftr.,:;'!|()I ")
_WIDE = frozenset("mwMW%@")


def text_width(text: str, *, bold: bool = False) -> float:
    """The room a line of text takes at most, reckoned for a wide sans-serif face."""
    total = 0.0
    for letter in text:
        if letter in _NARROW:
            share = 0.42
        elif letter in _WIDE:
            share = 1.0
        elif letter.isupper() or letter.isdigit():
            share = 0.7
        else:
            share = 0.62
        total += share
    return total * TEXT * (1.1 if bold else 1.0)


def wrapped(text: str, width: float, *, bold: bool = False) -> tuple[str, ...]:
    """The text in lines no wider than `width`; a word that is wider by itself is cut."""
    lines: list[str] = []
    line = ""
    for whole in text.split():
        word = whole
        if line and text_width(f"{line} {word}", bold=bold) <= width:
            line = f"{line} {word}"
            continue
        if line:
            lines.append(line)
        while text_width(word, bold=bold) > width and len(word) > 1:
            cut = len(word) - 1
            while cut > 1 and text_width(word[:cut], bold=bold) > width:
                cut -= 1
            lines.append(word[:cut])
            word = word[cut:]
        line = word
    if line:
        lines.append(line)
    return tuple(lines)
