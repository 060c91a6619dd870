"""Laws of section 1, on holds drawn at random."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.limits import position_cell
from procgen.model.hold import Hold, LoadFactors, Position, Restraint, Zone
from procgen.model.stated import SourceRef, Stated
from procgen.model.unit import BaseSize, UnitType
from procgen.model.words import LoadDirection, RestraintKind, RestraintState
from procgen.results.limits import LimitCell
from procgen.units import UNITS, Dimension, Quantity, of
from tests.limits.holds import hold, plain_floor, unit_type

DIRECTIONS = list(LoadDirection)
SYMBOLS = {
    dimension: [unit.symbol for unit in UNITS.values() if unit.dimension is dimension]
    for dimension in Dimension
}


def stated(dimension: Dimension, low: int, high: int) -> st.SearchStrategy[Stated]:
    """A limit of some size, written in any unit of its dimension."""
    sizes = st.integers(low * 100, high * 100).map(lambda hundredths: Fraction(hundredths, 100))
    return st.builds(
        lambda size, symbol: Stated(
            Quantity(size / UNITS[symbol].factor, UNITS[symbol]), SourceRef("WB", "1")
        ),
        sizes,
        st.sampled_from(SYMBOLS[dimension]),
    )


RATINGS = st.dictionaries(st.sampled_from(DIRECTIONS), stated(Dimension.FORCE, 0, 60_000), max_size=5)


@st.composite
def holds(draw: st.DrawFn) -> Hold:
    """A hold of one bay with restraints, floor limits, factors and zones drawn at random."""
    names = [f"r{number}" for number in range(draw(st.integers(1, 5)))]
    items = [
        Restraint(name, name, RestraintKind.LOCK, RestraintState.RAISED, beside=("1",), rating=draw(RATINGS))
        for name in names
    ]
    position = Position("1", (*names, "box"), {"K": draw(stated(Dimension.MASS, 1, 3000))})
    floor = plain_floor(
        running=draw(st.none() | stated(Dimension.RUNNING_LOAD, 1, 2000)),
        area=draw(st.none() | stated(Dimension.AREA_LOAD, 1, 2000)),
        bears_on_floor=draw(st.booleans()),
    )
    zone = Zone("z", "zone", ("1",), draw(st.none() | stated(Dimension.MASS, 1, 3000)))
    one = hold(*items, position=position, floor=floor, zones=(zone,))
    factors = draw(
        st.dictionaries(st.sampled_from(DIRECTIONS), stated(Dimension.ACCELERATION, 0, 90), max_size=5)
    )
    return replace(one, load_factors=LoadFactors(one.load_factors.kind, factors))


UNIT_TYPES = st.builds(
    lambda gross, long, wide: unit_type(max_gross=gross, base=BaseSize("K", long, wide)),
    stated(Dimension.MASS, 1, 3000),
    st.integers(500, 1600).map(lambda n: of(n, "mm")),
    st.integers(500, 1600).map(lambda n: of(n, "mm")),
)


def cell(one: Hold, kind: UnitType) -> LimitCell:
    return position_cell(one, one.positions["1"], kind)


def limit(one: Hold, kind: UnitType) -> Fraction:
    """The limit in kg; zero where the type is not acceptable."""
    found = cell(one, kind).limit
    return found.si if found is not None else Fraction(0)


def scaled(number: Stated, factor: Fraction) -> Stated:
    return replace(number, quantity=Quantity(number.quantity.value * factor, number.quantity.unit))


@settings(deadline=None, max_examples=40)
@given(holds(), UNIT_TYPES)
def test_never_above_any_candidate_nor_above_what_the_parts_allow(one: Hold, kind: UnitType) -> None:
    found = cell(one, kind)
    assert found.limit is not None, "the box holds every direction"
    assert all(found.limit <= each.mass for each in found.candidates)
    assert any(found.limit == each.mass for each in found.candidates)
    mass = found.limit.si
    assert mass <= kind.max_gross.quantity.si
    assert mass <= one.positions["1"].max_mass["K"].quantity.si
    if one.floor.running:
        assert mass <= one.floor.running.quantity.si * kind.base.length.si
    for zone in one.zones.values():
        assert zone.combined is None or mass <= zone.combined.quantity.si
    for direction, factor in one.load_factors.by_direction.items():
        items = [one.restraints[name] for name in one.positions["1"].held_by]
        held = sum(
            (item.rating[direction].quantity.si for item in items if direction in item.rating), Fraction(0)
        )
        assert mass * factor.quantity.si <= held


@settings(deadline=None, max_examples=40)
@given(holds(), UNIT_TYPES, st.fractions(1, 3, max_denominator=10), st.integers(0, 4))
def test_raising_one_limit_never_lowers_the_answer(
    one: Hold, kind: UnitType, factor: Fraction, which: int
) -> None:
    position, floor, zone = one.positions["1"], one.floor, one.zones["z"]

    def more(number: Stated | None) -> Stated | None:
        return scaled(number, factor) if number else None

    raised: list[tuple[Hold, UnitType]] = [
        (one, replace(kind, max_gross=scaled(kind.max_gross, factor))),
        (
            replace(
                one,
                positions={"1": replace(position, max_mass={"K": scaled(position.max_mass["K"], factor)})},
            ),
            kind,
        ),
        (replace(one, floor=replace(floor, running=more(floor.running))), kind),
        (replace(one, floor=replace(floor, area=more(floor.area))), kind),
        (replace(one, zones={"z": replace(zone, combined=more(zone.combined))}), kind),
    ]
    assert limit(*raised[which]) >= limit(one, kind)


@settings(deadline=None, max_examples=40)
@given(holds(), UNIT_TYPES, st.fractions(1, 3, max_denominator=10), st.data())
def test_raising_one_rating_never_lowers_and_one_factor_never_raises(
    one: Hold, kind: UnitType, factor: Fraction, data: st.DataObject
) -> None:
    item = data.draw(st.sampled_from(list(one.restraints.values())))
    stronger = replace(item, rating={d: scaled(rating, factor) for d, rating in item.rating.items()})
    better = replace(one, restraints={**one.restraints, item.name: stronger})
    assert limit(better, kind) >= limit(one, kind)
    harder = {d: scaled(asked, factor) for d, asked in one.load_factors.by_direction.items()}
    worse = replace(one, load_factors=replace(one.load_factors, by_direction=harder))
    assert limit(worse, kind) <= limit(one, kind)


@settings(deadline=None, max_examples=40)
@given(holds(), UNIT_TYPES, st.data())
def test_removing_a_restraint_never_raises_a_limit(one: Hold, kind: UnitType, data: st.DataObject) -> None:
    position = one.positions["1"]
    out = data.draw(st.sampled_from(position.held_by))
    left = tuple(name for name in position.held_by if name != out)
    without = replace(one, positions={"1": replace(position, held_by=left)})
    assert limit(without, kind) <= limit(one, kind)


@settings(deadline=None, max_examples=40)
@given(holds(), UNIT_TYPES, st.data())
def test_writing_every_number_in_another_unit_changes_nothing(
    one: Hold, kind: UnitType, data: st.DataObject
) -> None:
    symbols = {d: data.draw(st.sampled_from(SYMBOLS[d])) for d in Dimension}

    def put(number: Stated) -> Stated:
        return replace(number, quantity=number.quantity.to(symbols[number.quantity.dimension]))

    def maybe(number: Stated | None) -> Stated | None:
        return put(number) if number else None

    floor = replace(one.floor, running=maybe(one.floor.running), area=maybe(one.floor.area))
    restraints = {
        name: replace(item, rating={d: put(rating) for d, rating in item.rating.items()})
        for name, item in one.restraints.items()
    }
    position = replace(
        one.positions["1"], max_mass={k: put(v) for k, v in one.positions["1"].max_mass.items()}
    )
    factors = {d: put(v) for d, v in one.load_factors.by_direction.items()}
    zones = {name: replace(zone, combined=maybe(zone.combined)) for name, zone in one.zones.items()}
    other = replace(
        one,
        floor=floor,
        restraints=restraints,
        positions={"1": position},
        load_factors=replace(one.load_factors, by_direction=factors),
        zones=zones,
    )
    base = replace(
        kind.base,
        length=kind.base.length.to(symbols[Dimension.LENGTH]),
        width=kind.base.width.to(symbols[Dimension.LENGTH]),
    )
    twin = replace(kind, base=base, max_gross=put(kind.max_gross))
    assert limit(other, twin) == limit(one, kind)
    assert [c.kind for c in cell(other, twin).candidates] == [c.kind for c in cell(one, kind).candidates]


@settings(deadline=None, max_examples=40)
@given(holds(), UNIT_TYPES, st.integers(1, 800))
def test_a_unit_that_fits_still_fits_when_it_is_smaller(one: Hold, kind: UnitType, less: int) -> None:
    smaller = replace(kind, height=of(kind.height.si * 1000 - less, "mm"))
    assert cell(one, smaller).reasons == cell(one, kind).reasons == ()
