"""Holds of every kind with limits of every kind drawn onto them, and ways to raise one and to rewrite all."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass, replace
from fractions import Fraction
from typing import Any, TypeVar

from hypothesis import strategies as st

from procgen.model.hold import Door, Floor, Hold, LoadFactors, Zone
from procgen.model.loads import CumulativeLine
from procgen.model.stated import SourceRef, Span1, Stated
from procgen.model.unit import UnitType
from procgen.model.words import LoadDirection
from procgen.results.load_check import GivenUnit
from procgen.units import Dimension, Quantity, of, quantity
from tests.more_holds import any_holds
from tests.support import demo

WB = SourceRef("WB", "9")
_Record = TypeVar("_Record", Floor, Zone, Door)


@dataclass(frozen=True)
class Drawn:
    """A hold with limits, the unit types of its fleet, and a load that its positions may take."""

    hold: Hold
    unit_types: Mapping[str, UnitType]
    load: tuple[GivenUnit, ...]


def _stated(draw: st.DrawFn, low: int, high: int, *symbols: str) -> Stated:
    number = Fraction(draw(st.integers(low * 10, high * 10)), 10)
    return Stated(of(number, draw(st.sampled_from(symbols))), WB)


def _maybe(draw: st.DrawFn, low: int, high: int, *symbols: str) -> Stated | None:
    return _stated(draw, low, high, *symbols) if draw(st.booleans()) else None


def _zones(draw: st.DrawFn, hold: Hold) -> dict[str, Zone]:
    names = tuple(hold.positions)
    some = tuple(name for name in names if draw(st.booleans())) or names
    xs = [edge.si for one in hold.bays.values() for edge in (one.rectangle.x.low, one.rectangle.x.high)]
    middle = (min(xs) + max(xs)) / 2
    stretch = Span1(of(min(xs), "m"), of(middle + Fraction(1, 3), "m"))
    return {
        "some": Zone("some", "some", some, _maybe(draw, 500, 5000, "kg", "lb")),
        "stretch": Zone(
            "stretch",
            "stretch",
            (),
            _maybe(draw, 500, 4000, "kg"),
            x=stretch,
            running=_maybe(draw, 300, 2500, "kg/m"),
            asymmetry=_maybe(draw, 100, 2000, "kg"),
        ),
        "all": Zone("all", "all", (), None, adjacent=_maybe(draw, 600, 5000, "lb", "kg")),
    }


def _lines(draw: st.DrawFn, hold: Hold) -> dict[str, CumulativeLine]:
    end = draw(st.sampled_from([LoadDirection.FORWARD, LoadDirection.AFT]))
    masses = sorted((_stated(draw, 300, 6000, "kg") for _ in range(3)), key=lambda one: one.quantity)
    points = zip(
        ("-8 m", "0 m", "8 m"), masses if end is LoadDirection.FORWARD else masses[::-1], strict=True
    )
    line = CumulativeLine("line", "line", end, tuple((quantity(x, Dimension.LENGTH), m) for x, m in points))
    return {"line": line} if draw(st.booleans()) else {}


def _base(draw: st.DrawFn) -> tuple[Hold, Mapping[str, UnitType]]:
    """A hold drawn from nothing, or, which is much sooner read, one of the demonstration's."""
    if draw(st.integers(0, 5)) == 5:
        generated = draw(any_holds())
        return generated.hold, generated.unit_types
    network = demo().network
    return network.holds[draw(st.sampled_from(sorted(network.holds)))], network.unit_types


@st.composite
def drawn(draw: st.DrawFn) -> Drawn:
    """A valid hold with limits of every kind drawn or not, and a load within each position's own limits."""
    hold, unit_types = _base(draw)
    floor = replace(
        hold.floor,
        running=_maybe(draw, 400, 2000, "kg/m"),
        area=_maybe(draw, 200, 1500, "kg/m2", "lb/ft2"),
        bears_on_floor=draw(st.booleans()),
    )
    factors = LoadFactors(
        hold.load_factors.kind,
        {d: _stated(draw, 1, 3, "g") for d in LoadDirection if draw(st.integers(0, 3)) > 0},
    )
    share = Fraction(draw(st.integers(1, 8)), 4)
    restraints = {
        name: replace(item, rating={d: scaled(rating, share) for d, rating in item.rating.items()})
        for name, item in hold.restraints.items()
    }
    made = replace(hold, floor=floor, load_factors=factors, restraints=restraints)
    made = replace(made, zones=_zones(draw, made), cumulative=_lines(draw, made))
    return Drawn(made, unit_types, tuple(_load(draw, made, unit_types)))


def _load(draw: st.DrawFn, hold: Hold, unit_types: Mapping[str, UnitType]) -> Iterator[GivenUnit]:
    taken: set[str] = set()
    for name in hold.positions:
        if taken & hold.overlapping(name) or not draw(st.booleans()):
            continue
        taken.add(name)
        code = draw(st.sampled_from(sorted(unit_types)))
        yield GivenUnit(hold.name, name, code, of(draw(st.integers(1, 1500)), "kg"))


def scaled(number: Stated, factor: Fraction) -> Stated:
    """The same limit times a factor, in its own unit."""
    unit = number.quantity.unit
    return replace(number, quantity=Quantity(number.quantity.value * factor, unit))


def _with(record: _Record, field: str, value: object) -> _Record:
    changes: dict[str, Any] = {field: value}
    return replace(record, **changes)


def raised(hold: Hold, factor: Fraction) -> Iterator[tuple[str, Hold]]:
    """The hold with one limit higher, once for every limit that its description states, by name.

    A load factor is lower: it asks less.
    """

    def more(number: Stated) -> Stated:
        return scaled(number, factor)

    def bigger(size: Quantity) -> Quantity:
        return Quantity(size.value * factor, size.unit)

    for name, position in hold.positions.items():
        for key, most in position.max_mass.items():
            changed = replace(position, max_mass={**position.max_mass, key: more(most)})
            yield f"{name} {key}", replace(hold, positions={**hold.positions, name: changed})
        if position.height is not None:
            changed = replace(position, height=bigger(position.height))
            yield f"{name} height", replace(hold, positions={**hold.positions, name: changed})
    for key in ("running", "area"):
        stated = getattr(hold.floor, key)
        if stated is not None:
            yield f"floor {key}", replace(hold, floor=_with(hold.floor, key, more(stated)))
    yield "ceiling", replace(hold, floor=replace(hold.floor, height=bigger(hold.floor.height)))
    for name, item in hold.restraints.items():
        for direction, rating in item.rating.items():
            better = replace(item, rating={**item.rating, direction: more(rating)})
            yield f"{name} {direction}", replace(hold, restraints={**hold.restraints, name: better})
    for name, zone in hold.zones.items():
        for key in ("combined", "running", "asymmetry", "adjacent"):
            stated = getattr(zone, key)
            if stated is not None:
                higher = _with(zone, key, more(stated))
                yield f"{name} {key}", replace(hold, zones={**hold.zones, name: higher})
    for name, line in hold.cumulative.items():
        for index, (x, most) in enumerate(line.points):
            points = (*line.points[:index], (x, more(most)), *line.points[index + 1 :])
            above = replace(line, points=points)
            yield f"{name} {index}", replace(hold, cumulative={**hold.cumulative, name: above})
    for name, door in hold.doors.items():
        for key in ("clear_width", "clear_height"):
            wider = _with(door, key, bigger(getattr(door, key)))
            yield f"{name} {key}", replace(hold, doors={**hold.doors, name: wider})
    for direction, asked in hold.load_factors.by_direction.items():
        less = {**hold.load_factors.by_direction, direction: scaled(asked, 1 / factor)}
        yield f"factor {direction}", replace(hold, load_factors=replace(hold.load_factors, by_direction=less))


IMPERIAL = {
    Dimension.MASS: "lb",
    Dimension.LENGTH: "in",
    Dimension.RUNNING_LOAD: "lb/in",
    Dimension.AREA_LOAD: "lb/ft2",
    Dimension.FORCE: "lbf",
    Dimension.SPEED: "kt",
    Dimension.ACCELERATION: "m/s2",
}
"""A unit to write every quantity of a dimension in."""


def rewritten(record: Any) -> Any:
    """A record with every quantity in it, at any depth, written in another unit of its dimension."""
    if isinstance(record, Quantity):
        return record.to(IMPERIAL.get(record.dimension, record.unit.symbol))
    if is_dataclass(record) and not isinstance(record, type):
        made = {one.name: rewritten(getattr(record, one.name)) for one in fields(record) if one.init}
        return replace(record, **made)
    if isinstance(record, Mapping):
        return {key: rewritten(value) for key, value in record.items()}
    if isinstance(record, tuple):
        return tuple(map(rewritten, record))
    return record
