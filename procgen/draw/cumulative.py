"""The chart of a cumulative limit: how much may stand up to each x, with the positions under it."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

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
from procgen.draw.frame import SHEET_WIDTH, Box, text_width, wrapped
from procgen.model.hold import Hold
from procgen.model.loads import CumulativeLine
from procgen.model.words import LoadDirection
from procgen.results.load_limits import Placed
from procgen.units import of

_LEFT, _RIGHT = 46.0, SHEET_WIDTH - 8.0
_TOP, _LOW = 30.0, 180.0
_ROW = 15.0
"""Height of one row of positions under the plot."""
_KEY = SHEET_WIDTH - 40.0


def cumulative_chart(hold: Hold, line: CumulativeLine, own: Sequence[Placed], unit: str) -> Chart:
    """The limit as a line over x, and what stands there with every position at its own limit (`own`).

    Positions that share floor are not counted together: the first in the order of the description stays.
    """
    points = [(x.si, stated.quantity.si) for x, stated in line.points]
    loaded = _side_by_side(hold, own)
    load = _loaded(loaded, line.from_end is LoadDirection.FORWARD)
    floor = hold.floor.rectangle.x
    most = max(mass for _, mass in points + load)
    x_scale = Scale(floor.low.si, floor.high.si, _LEFT, _RIGHT)
    m_scale = Scale(Fraction(0), most * 11 / 10, _LOW, _TOP)

    def at(point: tuple[Fraction, Fraction]) -> Point:
        return x_scale.at(point[0]), m_scale.at(point[1])

    strokes, texts = _axes(m_scale, most, unit)
    limit = tuple(at(point) for point in points)
    strokes += [Stroke("pg-guide", ((u, v), (u, _LOW))) for u, v in limit]
    strokes.append(Stroke("pg-load", tuple(at(point) for point in load)))
    strokes.append(Stroke("pg-limit", limit))
    end = "forward" if line.from_end is LoadDirection.FORWARD else "aft"
    texts += [Text(f"{unit}, {end} of x", 4.0, 12.0, "pg-bold"), ending("◀ FORWARD", _RIGHT, 12.0, "pg-bold")]
    texts += _values(line, limit, unit, [text.box for text in texts])
    boxes, names, low = _positions(hold, x_scale, _LOW + 18)
    samples, words, bottom = keyed(
        [
            ("pg-limit", wrapped(f"the most that may stand {end} of x", _KEY)),
            ("pg-load", wrapped(f"{', '.join(one.position for one in loaded)} each at its own limit", _KEY)),
        ],
        low + 4,
    )
    return Chart(
        title=f"{line.title}: the most that may stand {end} of each x",
        told=_told(line, end, unit),
        height=bottom + 4,
        strokes=(*strokes, *boxes, *samples),
        texts=(*texts, *names, *words),
    )


def _axes(scale: Scale, most: Fraction, unit: str) -> tuple[list[Stroke], list[Text]]:
    factor = of(1, unit).si
    strokes = [Stroke("pg-axis", ((_LEFT, _TOP - 6), (_LEFT, _LOW), (_RIGHT, _LOW)))]
    texts: list[Text] = []
    for tick in ticks(most / factor, 6):
        v = scale.at(tick * factor)
        strokes.append(Stroke("pg-grid", ((_LEFT, v), (_RIGHT, v))))
        strokes.append(Stroke("pg-axis", ((_LEFT - TICK, v), (_LEFT, v))))
        texts.append(ending(str(of(tick, unit)).removesuffix(f" {unit}"), _LEFT - TICK - 2, v + 3.6))
    return strokes, texts


def _values(line: CumulativeLine, limit: Sequence[Point], unit: str, taken: Sequence[Box]) -> list[Text]:
    """The mass over each point, and its x under the axis; those that find no room are in the description."""
    css = "pg-bold pg-halo"
    masses = [stated.quantity.to(unit).down() for _, stated in line.points]
    rising = line.from_end is LoadDirection.FORWARD
    over = [
        kept_in(
            ending(mass, u - 3, v - 5, css) if rising else Text(mass, u + 3, v - 5, css), _LEFT + 2, _RIGHT
        )
        for mass, (u, v) in zip(masses, limit, strict=True)
    ]
    under = [
        kept_in(centred(str(x), u, _LOW + 12), _LEFT - 8, _RIGHT + 4)
        for (x, _), (u, _) in zip(line.points, limit, strict=True)
    ]
    return list(without_overlap([*over, *under], taken))


def _positions(hold: Hold, scale: Scale, top: float) -> tuple[list[Stroke], list[Text], float]:
    """A box for each position under its stretch of x, right before left, none on another."""
    rows: list[list[tuple[float, float]]] = []
    strokes, texts = [], []
    for name in sorted(hold.positions, key=lambda one: -_middle(hold, one)):
        span = hold.bays[name].rectangle.x
        left, right = scale.at(span.low.si), scale.at(span.high.si)
        label = kept_in(centred(name, (left + right) / 2, 0, "pg-bold"), _LEFT, SHEET_WIDTH)
        taken = (min(left, label.u), max(right, label.u + text_width(name, bold=True)))
        row = next(
            (n for n, row in enumerate(rows) if all(taken[1] <= a or b <= taken[0] for a, b in row)),
            len(rows),
        )
        if row == len(rows):
            rows.append([])
        rows[row].append(taken)
        box = Box(left, top + row * _ROW, right, top + (row + 1) * _ROW - 2)
        corners = ((left, box.top), (right, box.top), (right, box.bottom), (left, box.bottom))
        strokes.append(Stroke("pg-bay", corners, closed=True))
        texts.append(Text(name, label.u, box.bottom - 3, "pg-bold"))
    return strokes, texts, top + len(rows) * _ROW


def _middle(hold: Hold, name: str) -> Fraction:
    span = hold.bays[name].rectangle.y
    return (span.low.si + span.high.si) / 2


def _side_by_side(hold: Hold, own: Sequence[Placed]) -> tuple[Placed, ...]:
    """Units of which none shares floor with another, the first ones kept."""
    kept: list[Placed] = []
    for one in own:
        if not hold.overlapping(one.position) & {other.position for other in kept}:
            kept.append(one)
    return tuple(kept)


def _loaded(units: Sequence[Placed], forward: bool) -> list[tuple[Fraction, Fraction]]:
    """What stands forward (or aft) of each x where a unit begins or ends, its mass even over its base."""
    edges = sorted({edge.si for one in units for edge in (one.x.low, one.x.high)})
    found = []
    for x in edges:
        mass = Fraction(0)
        for one in units:
            low, high = one.x.low.si, one.x.high.si
            ahead = min(max(x - low, Fraction(0)) / (high - low), Fraction(1))
            mass += one.mass.si * (ahead if forward else 1 - ahead)
        found.append((x, mass))
    return found


def _told(line: CumulativeLine, end: str, unit: str) -> str:
    said = ", ".join(f"{stated.quantity.to(unit).down()} {end} of x {x}" for x, stated in line.points)
    return f"At most {said}; in between on a straight line."
