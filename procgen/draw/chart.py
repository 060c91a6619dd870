"""What a chart is made of before a line of markup is written: strokes, texts and marks on a sheet.

A sheet is `SHEET_WIDTH` wide, like the plan views, so that a text of it is as legible on a phone. Numbers are
turned into floating point here, for drawing only.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import floor, log10

from procgen.draw.frame import LINE, SHEET_WIDTH, TEXT, Box, text_width

Point = tuple[float, float]

TICK = 3.0
"""Length of a tick beside an axis."""


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line through points; `css` says what it is. A closed one encloses its area."""

    css: str
    points: tuple[Point, ...]
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text, its left lower corner at `u`, `v`."""

    words: str
    u: float
    v: float
    css: str = ""

    @property
    def bold(self) -> bool:
        """Whether it takes the room of bold letters."""
        return "pg-bold" in self.css

    @property
    def box(self) -> Box:
        """The room it takes at most."""
        width = text_width(self.words, bold=self.bold)
        return Box(self.u, self.v - TEXT + 1, self.u + width, self.v + 2)


@dataclass(frozen=True, slots=True)
class Mark:
    """A symbol of the chart sheet with its middle at `u`, `v`."""

    name: str
    u: float
    v: float


@dataclass(frozen=True, slots=True)
class Chart:
    """A whole chart. `title` and `told` say it in words to those who do not see it."""

    title: str
    told: str
    height: float
    strokes: tuple[Stroke, ...]
    texts: tuple[Text, ...]
    marks: tuple[Mark, ...] = ()
    width: float = SHEET_WIDTH

    @property
    def sheet(self) -> Box:
        """The whole sheet."""
        return Box(0, 0, self.width, self.height)


@dataclass(frozen=True, slots=True)
class Scale:
    """A straight scale from numbers to the sheet; `start` is where `low` lies."""

    low: Fraction
    high: Fraction
    start: float
    end: float

    def at(self, value: Fraction) -> float:
        """Where a number lies."""
        return self.start + float((value - self.low) / (self.high - self.low)) * (self.end - self.start)


def centred(words: str, u: float, v: float, css: str = "") -> Text:
    """Text with its middle at `u`."""
    return Text(words, u - text_width(words, bold="pg-bold" in css) / 2, v, css)


def ending(words: str, u: float, v: float, css: str = "") -> Text:
    """Text that ends at `u`."""
    return Text(words, u - text_width(words, bold="pg-bold" in css), v, css)


def kept_in(text: Text, low: float, high: float) -> Text:
    """The text moved sideways into a stretch of the sheet, as far as it goes."""
    width = text.box.width
    return Text(text.words, max(low, min(text.u, high - width)), text.v, text.css)


def ticks(high: Fraction, most: int) -> tuple[Fraction, ...]:
    """Round numbers from nought up to `high` or less, at most `most` of them: steps of 1, 2 or 5 tens."""
    if high <= 0:
        return (Fraction(0),)
    ten = Fraction(10) ** floor(log10(float(high)))
    for step in (ten / 10, ten / 5, ten / 2, ten, ten * 2, ten * 5, ten * 10):
        if high // step + 1 <= most:
            return tuple(step * n for n in range(int(high // step) + 1))
    return (Fraction(0),)


def without_overlap(wished: Sequence[Text], taken: Sequence[Box] = ()) -> Iterator[Text]:
    """The texts that lie on none before them, nor on what is taken; the first ones win."""
    boxes = list(taken)
    for text in wished:
        if not any(text.box.overlaps(box) for box in boxes):
            boxes.append(text.box)
            yield text


def keyed(samples: Sequence[tuple[str, Sequence[str]]], top: float) -> tuple[list[Stroke], list[Text], float]:
    """A key under a chart: a sample of each stroke and what it means, line by line; and where it ends."""
    strokes, texts, v = [], [], top
    for css, lines in samples:
        strokes.append(Stroke(css, ((4.0, v + LINE / 2), (26.0, v + LINE / 2))))
        for line in lines:
            v += LINE
            texts.append(Text(line, 32.0, v - 3))
    return strokes, texts, v
