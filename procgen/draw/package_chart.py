"""The chart of what goes through a door: the largest length over the width, for each height."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import groupby

from procgen.draw.chart import (
    TICK,
    Chart,
    Point,
    Scale,
    Stroke,
    Text,
    centred,
    ending,
    kept_in,
    keyed,
    ticks,
    without_overlap,
)
from procgen.draw.frame import SHEET_WIDTH, wrapped
from procgen.results.packages import Longest, PackageTable
from procgen.units import Quantity

_LEFT, _RIGHT = 46.0, SHEET_WIDTH - 10.0
_TOP, _LOW = 30.0, 190.0
STYLES = 5
"""How many ways of drawing a line there are before they come again; the letter tells lines apart."""


def package_chart(title: str, table: PackageTable) -> Chart:
    """One line for each height at which something else goes in: a step for each width, as the table says it.

    Between two widths of the table the length of the wider one counts, so the line runs in steps.
    """
    lines = [list(rows)[-1] for _, rows in groupby(table.rows, key=lambda row: [one.length for one in row])]
    widest = max(one.width.si for row in lines for one in row)
    longest = max([one.length.si for row in lines for one in row if one.length is not None] or [Fraction(1)])
    across = Scale(Fraction(0), widest, _LEFT, _RIGHT)
    up = Scale(Fraction(0), longest * 21 / 20, _LOW, _TOP)
    strokes, texts = _axes(across, up, longest, [one.width for one in lines[0]])
    samples: list[tuple[str, Sequence[str]]] = []
    letters: list[Text] = []
    for n, row in enumerate(lines):
        css, letter = f"pg-line pg-line-{n % STYLES}", chr(ord("A") + n % 26)
        points = _steps(row, across, up)
        if points:
            strokes.append(Stroke(css, points))
            u, v = points[-1][0], points[-1][1]
            letters.append(Text(letter, u - 8, v - 4, "pg-bold pg-halo"))
        height = row[0].height.to("mm").down()
        samples.append((css, wrapped(f"{letter}: up to {height} high", SHEET_WIDTH - 40)))
    texts += without_overlap(letters, [text.box for text in texts])
    keys, words, bottom = keyed(samples, _LOW + 32)
    return Chart(
        title=f"{title}: the longest piece for each width",
        told=" ".join(_told(row) for row in lines),
        height=bottom + 4,
        strokes=(*strokes, *keys),
        texts=(*texts, *words),
    )


def _steps(row: Sequence[Longest], across: Scale, up: Scale) -> tuple[Point, ...]:
    """Level up to each width, then down at it: what is a little wider counts as the next one."""
    points: list[Point] = []
    before = Fraction(0)
    for one in row:
        if one.length is None:
            break
        v = up.at(one.length.si)
        points += [(across.at(before), v), (across.at(one.width.si), v)]
        before = one.width.si
    return tuple(points)


def _axes(
    across: Scale, up: Scale, longest: Fraction, widths: Sequence[Quantity]
) -> tuple[list[Stroke], list[Text]]:
    strokes = [Stroke("pg-axis", ((_LEFT, _TOP - 6), (_LEFT, _LOW), (_RIGHT, _LOW)))]
    texts = [Text("length, mm", 4.0, 12.0, "pg-bold")]
    for tick in ticks(longest * 1000, 8):
        v = up.at(tick / 1000)
        strokes.append(Stroke("pg-grid", ((_LEFT, v), (_RIGHT, v))))
        strokes.append(Stroke("pg-axis", ((_LEFT - TICK, v), (_LEFT, v))))
        texts.append(ending(f"{int(tick):,}".replace(",", " "), _LEFT - TICK - 2, v + 3.6))
    marks: list[Text] = []
    for width in reversed(widths):
        u = across.at(width.si)
        strokes.append(Stroke("pg-axis", ((u, _LOW), (u, _LOW + TICK))))
        marks.append(
            kept_in(centred(width.to("mm").down().removesuffix(" mm"), u, _LOW + 13), 0, SHEET_WIDTH)
        )
    texts += without_overlap(marks)
    return strokes, [*texts, ending("width, mm", _RIGHT, _LOW + 26, "pg-bold")]


def _told(row: Sequence[Longest]) -> str:
    said = ", ".join(
        f"{one.width.to('mm').down()} wide {one.length.to('mm').down() if one.length else 'none'}"
        for one in row
    )
    return f"Up to {row[0].height.to('mm').down()} high: {said}."
