"""Laws of the limits, on holds of every kind with limits of every kind."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from procgen.limits import position_cell, position_table
from procgen.limits.given import check_given
from procgen.limits.zone_most import zone_most
from procgen.model.hold import Hold
from procgen.model.unit import UnitType
from procgen.results.load_check import GivenUnit, LoadCheck
from procgen.units import Quantity, of
from tests.limits.drawn import Drawn, drawn, raised, rewritten, scaled

few = settings(deadline=None, max_examples=10, suppress_health_check=list(HealthCheck))


def accepted(hold: Hold, given_: Drawn) -> LoadCheck:
    return check_given(hold, given_.unit_types, given_.load)


def cells(hold: Hold, given_: Drawn) -> dict[tuple[str, str], Fraction]:
    """What each position may carry of each type in kg; less than nothing where it takes none."""
    return {
        (cell.position, cell.unit_type): cell.limit.si if cell.limit is not None else Fraction(-1)
        for cell in position_table(hold, given_.unit_types).cells
    }


@few
@given(drawn(), st.fractions(1, 2, max_denominator=7), st.data())
def test_raising_any_one_limit_never_lowers_another(
    one: Drawn, factor: Fraction, data: st.DataObject
) -> None:
    """No cell falls, no load that was accepted is refused, and no constraint is used more."""
    every = list(raised(one.hold, factor))
    before, check = cells(one.hold, one), accepted(one.hold, one)
    chosen = data.draw(st.lists(st.sampled_from(range(len(every))), min_size=1, max_size=2, unique=True))
    for name, higher in (every[index] for index in chosen):
        after = cells(higher, one)
        assert all(after[key] >= limit for key, limit in before.items()), name
        assert accepted(higher, one).met >= check.met, name


@few
@given(drawn(), st.fractions(1, 2, max_denominator=7), st.data())
def test_raising_a_limit_on_several_never_lowers_the_most_of_a_zone(
    one: Drawn, factor: Fraction, data: st.DataObject
) -> None:
    """Of a hold with one unit type: where there are more, another may become the heaviest in a position."""
    only = dict([data.draw(st.sampled_from(sorted(one.unit_types.items())))])
    before = zone_most(one.hold, only)
    shared = [each for each in raised(one.hold, factor) if each[0].split()[0] in {*one.hold.zones, "line"}]
    for name, higher in shared:
        for zone, most in zone_most(higher, only).items():
            assert most.total >= before[zone].total, name


@few
@given(drawn())
def test_a_limit_is_one_of_its_candidates_and_above_none(one: Drawn) -> None:
    for cell in position_table(one.hold, one.unit_types).cells:
        if cell.limit is None:
            assert cell.reasons
            continue
        assert all(cell.limit <= candidate.mass for candidate in cell.candidates)
        assert cell.governing is not None
        assert cell.limit == cell.governing.mass
        kinds = [candidate.kind for candidate in cell.candidates]
        assert len(set(kinds)) == len(kinds)


@few
@given(drawn())
def test_a_unit_at_its_limit_is_accepted_alone_and_one_gram_above_it_is_not(one: Drawn) -> None:
    """The table and the check of a load say the same: a limit is the most that is accepted, and no more."""
    table = position_table(one.hold, one.unit_types).cells
    for cell in [cell for cell in table if cell.limit is not None and cell.limit.si][:12]:
        assert cell.limit is not None
        unit = replace(_unit(one, cell.position, cell.unit_type), mass=cell.limit)
        alone = check_given(one.hold, one.unit_types, [unit])
        beyond = replace(unit, mass=of(cell.limit.si + Fraction(1, 1000), "kg"))
        assert all(use.met or use.kind == "asymmetry" for use in alone.uses)
        assert not check_given(one.hold, one.unit_types, [beyond]).met


def _unit(one: Drawn, position: str, unit_type: str) -> GivenUnit:
    return GivenUnit(one.hold.name, position, unit_type, of(1, "kg"))


@few
@given(drawn())
def test_a_restraint_less_never_raises_a_limit(one: Drawn) -> None:
    before = cells(one.hold, one)
    for position in one.hold.positions.values():
        for out in dict.fromkeys(position.held_by):
            left = replace(position, held_by=tuple(name for name in position.held_by if name != out))
            for code, unit_type in one.unit_types.items():
                limit = position_cell(one.hold, left, unit_type).limit
                assert limit is None or limit.si <= before[position.name, code]


@few
@given(drawn())
def test_writing_everything_in_other_units_changes_nothing(one: Drawn) -> None:
    """Pounds, inches, knots for kilograms, metres, metres a second: the same limits, exactly."""
    twin: Hold = rewritten(one.hold)
    types: dict[str, UnitType] = rewritten(dict(one.unit_types))
    other = Drawn(twin, types, rewritten(one.load))
    assert cells(twin, other) == cells(one.hold, one)
    ours, theirs = accepted(one.hold, one), accepted(twin, other)
    assert [(use.kind, use.used.si, use.limit.si) for use in ours.uses] == [
        (use.kind, use.used.si, use.limit.si) for use in theirs.uses
    ]
    assert ours.met == theirs.met
    first, second = ours.first, theirs.first
    assert (first and first.title) == (second and second.title)
    there = zone_most(twin, types)
    for zone, most in zone_most(one.hold, one.unit_types).items():
        assert there[zone].total.si == most.total.si


@few
@given(drawn(), st.data())
def test_a_load_accepted_stays_accepted_when_a_mass_falls_unless_asymmetry_binds(
    one: Drawn, data: st.DataObject
) -> None:
    check = accepted(one.hold, one)
    if not one.load:
        return
    which = data.draw(st.sampled_from(range(len(one.load))))
    part = data.draw(st.fractions(0, 1, max_denominator=9))
    light = tuple(
        replace(unit, mass=_lighter(one, unit, part)) if index == which else unit
        for index, unit in enumerate(one.load)
    )
    after = check_given(one.hold, one.unit_types, light)
    assert len(after.refused) == len(check.refused)
    for was, now in zip(check.uses, after.uses, strict=True):
        if was.kind != "asymmetry":
            assert now.used <= was.used
            assert now.met >= was.met


def _lighter(one: Drawn, unit: GivenUnit, part: Fraction) -> Quantity:
    """A part of its mass, but not less than it weighs empty."""
    tare = one.unit_types[unit.unit_type].tare
    least = min(unit.mass.si, tare.quantity.si) if tare is not None else Fraction(0)
    return of(max(unit.mass.si * part, least), "kg")


@few
@given(drawn(), st.fractions(1, 5, max_denominator=7))
def test_the_first_to_bind_is_the_first_exceeded_as_the_load_grows(one: Drawn, factor: Fraction) -> None:
    """A load grown to the share of the first constraint just meets it, and every other."""
    first = accepted(one.hold, one).first
    if first is None or not first.share:
        return
    grown = tuple(replace(unit, mass=of(unit.mass.si / first.share, "kg")) for unit in one.load)
    full = check_given(one.hold, one.unit_types, grown)
    assert all(use.met for use in full.uses)
    assert any(use.used.si == use.limit.si for use in full.uses)
    over = tuple(replace(unit, mass=of(unit.mass.si * (1 + factor), "kg")) for unit in grown)
    assert not check_given(one.hold, one.unit_types, over).met


@few
@given(drawn())
def test_a_lower_rating_of_one_item_out_of_two_is_seen_where_it_governs(one: Drawn) -> None:
    """With every rating at a tenth, what a restraint governs falls to a tenth and nothing rises."""
    weak = {
        name: replace(item, rating={d: scaled(r, Fraction(1, 10)) for d, r in item.rating.items()})
        for name, item in one.hold.restraints.items()
    }
    weaker = replace(one.hold, restraints=weak)
    for was, now in zip(
        position_table(one.hold, one.unit_types).cells,
        position_table(weaker, one.unit_types).cells,
        strict=True,
    ):
        if was.governing is None or now.governing is None:
            assert was.governing is now.governing is None
        elif was.governing.kind.startswith("restraint-"):
            assert now.governing.mass.si == was.governing.mass.si / 10
        else:
            assert now.governing.mass <= was.governing.mass
