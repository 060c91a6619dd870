"""Limits on several units together (limits.md, section 2).

Every such limit is a set of rows: so much of each unit's mass counts, and the sum is at most so much. How
much counts follows from where the units stand, their masses spread evenly over their bases; an edge through a
unit splits it in proportion. Checking a load and finding the most a zone can take use the same rows.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from procgen.limits.linear import largest_sum
from procgen.limits.shown import shown
from procgen.model.hold import Hold
from procgen.model.stated import Span1, Stated
from procgen.model.unit import UnitType
from procgen.model.words import LoadDirection
from procgen.results.load_limits import (
    AsymmetryLimit,
    CombinedLimit,
    CumulativeLimit,
    LoadLimit,
    Most,
    PairLimit,
    Placed,
    RunningLimit,
)
from procgen.results.uses import Use, first_to_bind
from procgen.units import Quantity, of


@dataclass(frozen=True, slots=True)
class Row:
    """The part of each unit's mass that counts (per metre for a running load) and the most of the sum."""

    where: str
    parts: tuple[Fraction, ...]
    limit: Stated


def placed(hold: Hold, unit_type: UnitType, position: str, mass: Quantity, name: str = "") -> Placed:
    """A unit in the middle of its bay; a loose load covers its section."""
    rectangle = hold.bays[position].rectangle
    if unit_type.loose:
        return Placed(name or position, position, mass, rectangle.x, rectangle.y)
    return Placed(
        name or position,
        position,
        mass,
        _centred(rectangle.x, unit_type.base.length),
        _centred(rectangle.y, unit_type.base.width),
    )


def _centred(span: Span1, size: Quantity) -> Span1:
    middle = (span.low.si + span.high.si) / 2
    return Span1(of(middle - size.si / 2, "m"), of(middle + size.si / 2, "m"))


def check_load(units: Sequence[Placed], limits: Sequence[LoadLimit]) -> tuple[Use, ...]:
    """How far a load uses each limit, in the order of the limits: for each the place where it binds first.

    A limit that no unit comes under is used by nothing.
    """
    return tuple(_use(limit, units) for limit in limits)


def _use(limit: LoadLimit, units: Sequence[Placed]) -> Use:
    uses = [_row_use(limit, row, units) for row in rows(limit, units)]
    found = first_to_bind(uses)
    if found is not None:
        return found
    stated = limit.points[0][1] if isinstance(limit, CumulativeLimit) else limit.limit
    return _row_use(limit, Row("", (Fraction(0),) * len(units), stated), units)


def _row_use(limit: LoadLimit, row: Row, units: Sequence[Placed]) -> Use:
    unit = row.limit.quantity.unit
    counted = [(one, part) for one, part in zip(units, row.parts, strict=True) if part]
    used = Quantity(sum((one.mass.si * part for one, part in counted), Fraction(0)) / unit.factor, unit)
    words = " + ".join(_counted(one, part, isinstance(limit, RunningLimit)) for one, part in counted)
    place = f"{row.where}: " if row.where else ""
    most = row.limit.quantity.written or shown(row.limit.quantity)
    return Use(
        kind=_KINDS[type(limit)],
        title=limit.title,
        used=used,
        limit=row.limit.quantity,
        reckoning=f"{place}{words or 'nothing'} = {shown(used)} of {most}",
        sources=(row.limit.source,) if row.limit.source else (),
        places=(row.limit.place,),
    )


def _counted(one: Placed, part: Fraction, per_length: bool) -> str:
    mass = one.mass.written or shown(one.mass)
    if per_length:
        return f"{mass} ({one.name}) / {shown(of(1 / part, 'm'))}"
    return f"{mass} ({one.name})" if part == 1 else f"{mass} ({one.name}) × {shown(of(part * 100, '%'))}"


_KINDS: Mapping[type[LoadLimit], str] = {
    CombinedLimit: "combined",
    CumulativeLimit: "cumulative",
    RunningLimit: "running-load",
    AsymmetryLimit: "asymmetry",
    PairLimit: "adjacent-pair",
}


def rows(limit: LoadLimit, units: Sequence[Placed]) -> list[Row]:
    """A limit as rows over these units; none where no unit comes under it."""
    match limit:
        case CombinedLimit():
            return _over_units(limit.limit, units, lambda one: _combined_part(limit, one))
        case PairLimit():
            return _over_units(limit.limit, units, lambda one: Fraction(one.position in limit.positions))
        case CumulativeLimit():
            return _cumulative(limit, units)
        case RunningLimit():
            return _running(limit, units)
        case AsymmetryLimit():
            return _asymmetry(limit, units)


def _over_units(
    limit: Stated, units: Sequence[Placed], part: Callable[[Placed], Fraction], where: str = ""
) -> list[Row]:
    parts = tuple(part(one) for one in units)
    return [Row(where, parts, limit)] if any(parts) else []


def _combined_part(limit: CombinedLimit, one: Placed) -> Fraction:
    if limit.positions and one.position not in limit.positions:
        return Fraction(0)
    return overlap(one.x, limit.x) if limit.x is not None else Fraction(1)


def overlap(span: Span1, within: Span1) -> Fraction:
    """The part of a stretch that lies within another."""
    low, high = max(span.low.si, within.low.si), min(span.high.si, within.high.si)
    return max(high - low, Fraction(0)) / (span.high.si - span.low.si)


def _edges(units: Sequence[Placed], low: Fraction | None, high: Fraction | None) -> list[Fraction]:
    """Where a unit begins or ends, in order, within a stretch and with its ends."""
    found = {edge for one in units for edge in (one.x.low.si, one.x.high.si)}
    ends = {edge for edge in (low, high) if edge is not None}
    inside = {x for x in found if (low is None or low < x) and (high is None or x < high)}
    return sorted(inside | ends)


def _cumulative(limit: CumulativeLimit, units: Sequence[Placed]) -> list[Row]:
    """A row at each point of the line and each edge of a unit: in between, load and limit run straight."""
    points = [x.si for x, _ in limit.points]
    found: list[Row] = []
    for x in sorted({*points, *_edges(units, points[0], points[-1])}):
        forward = limit.from_end is LoadDirection.FORWARD

        def part(one: Placed, x: Fraction = x, forward: bool = forward) -> Fraction:
            ahead = min(max(x - one.x.low.si, Fraction(0)) / (one.x.high.si - one.x.low.si), Fraction(1))
            return ahead if forward else 1 - ahead

        where = f"{'forward' if forward else 'aft'} of x = {shown(of(x, 'm'))}"
        found += _over_units(_line(limit, x), units, part, where)
    return found


def _line(limit: CumulativeLimit, x: Fraction) -> Stated:
    """The limit at x: that of a point, or between two the value on the line, with the first one's source."""
    for (left, low), (right, high) in pairwise(limit.points):
        if left.si <= x < right.si:
            share = (x - left.si) / (right.si - left.si)
            unit = low.quantity.unit
            value = (low.quantity.si + (high.quantity.si - low.quantity.si) * share) / unit.factor
            return low if share == 0 else Stated(Quantity(value, unit), low.source, low.place)
    return limit.points[-1][1]


def _running(limit: RunningLimit, units: Sequence[Placed]) -> list[Row]:
    """A row for each stretch between two edges: all units over it count, each with its mass per length."""
    low, high = (limit.x.low.si, limit.x.high.si) if limit.x else (None, None)
    found: list[Row] = []
    for start, end in pairwise(_edges(units, low, high)):

        def part(one: Placed, start: Fraction = start, end: Fraction = end) -> Fraction:
            counts = not limit.positions or one.position in limit.positions
            over = counts and one.x.low.si <= start and end <= one.x.high.si
            return 1 / (one.x.high.si - one.x.low.si) if over else Fraction(0)

        where = f"x = {shown(of(start, 'm'))} to {shown(of(end, 'm'))}"
        found += _over_units(limit.limit, units, part, where)
    return found


def _asymmetry(limit: AsymmetryLimit, units: Sequence[Placed]) -> list[Row]:
    """Two rows: right less left, and left less right; a unit across the centreline counts on both sides."""

    def right_less_left(one: Placed) -> Fraction:
        if limit.positions and one.position not in limit.positions:
            return Fraction(0)
        within = overlap(one.x, limit.x) if limit.x is not None else Fraction(1)
        low, high = one.y.low.si, one.y.high.si
        right = min(max(high, Fraction(0)) / (high - low), Fraction(1))
        return within * (2 * right - 1)

    return [
        *_over_units(limit.limit, units, right_less_left, "right over left"),
        *_over_units(limit.limit, units, lambda one: -right_less_left(one), "left over right"),
    ]


def most_together(units: Sequence[Placed], limits: Sequence[LoadLimit]) -> Most:
    """The most that these units can weigh together, each at most what its mass says (its own limit).

    Exact. Units that cannot stand in the hold at the same time must not be given together.
    """
    every = [(limit, row) for limit in limits for row in rows(limit, units)]
    one_each = [[Fraction(i == j) for j in range(len(units))] for i in range(len(units))]
    best = largest_sum(
        [Fraction(1)] * len(units),
        [*one_each, *(row.parts for _, row in every)],
        [*(one.mass.si for one in units), *(row.limit.quantity.si for _, row in every)],
    )
    masses = [
        Quantity(value / one.mass.unit.factor, one.mass.unit)
        for one, value in zip(units, best.values, strict=True)
    ]
    loaded = [
        Placed(one.name, one.position, mass, one.x, one.y) for one, mass in zip(units, masses, strict=True)
    ]
    own, prices = best.prices[: len(units)], best.prices[len(units) :]
    stops = [_row_use(*pair, loaded) for pair, price in zip(every, prices, strict=True) if price > 0]
    unit = units[0].mass.unit if units else of(0, "kg").unit
    return Most(
        total=Quantity(sum((mass.si for mass in masses), Fraction(0)) / unit.factor, unit),
        masses=tuple((one.name, mass) for one, mass in zip(units, masses, strict=True)),
        stopped_by=tuple(stops),
        own_limits=tuple(one.name for one, price in zip(units, own, strict=True) if price > 0),
    )


def least_spacing(mass: Quantity, running: Quantity) -> Quantity:
    """The least length of floor a mass needs under a running-load limit: mass / limit; a demand, shown up."""
    return of(mass.si / running.si, "m").to("in" if running.unit.symbol.startswith("lb/") else "m")
