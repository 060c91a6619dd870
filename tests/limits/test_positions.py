"""Section 1 of the limits: every candidate, exactly, and what governs."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from procgen.diagnostics import Place
from procgen.limits import position_cell, position_table
from procgen.model.hold import Hold, Zone
from procgen.model.loads import CumulativeLine
from procgen.model.stated import SourceRef, Span1, Stated
from procgen.model.unit import BaseSize, UnitType
from procgen.model.words import LoadDirection
from procgen.results.limits import Candidate, LimitCell
from procgen.units import Dimension, of, quantity
from tests.limits.holds import (
    area,
    hold,
    length,
    mass,
    plain_floor,
    plain_position,
    restraint,
    running,
    unit_type,
)


def cell(one: Hold | None = None, kind: UnitType | None = None) -> LimitCell:
    one = one or hold()
    return position_cell(one, one.positions["1"], kind or unit_type())


def candidate(found: LimitCell, kind: str) -> Candidate:
    assert found.reasons == ()
    (one,) = [each for each in found.candidates if each.kind == kind]
    return one


def test_the_lower_of_a_pound_and_a_kilogram_governs_and_is_named() -> None:
    """1588 kg is above 3500 lb (1587.573295 kg with the international pound): limits.md, section 1."""
    one = hold(position=plain_position(max_mass={"K": mass("3500 lb")}))
    found = cell(one, unit_type(max_gross=mass("1588 kg")))
    assert found.governing is not None
    assert found.governing.kind == "position-limit"
    assert str(found.limit) == "3500 lb"
    assert found.governing.mass.si == Fraction("1587.573295")
    assert found.limit is not None
    assert found.limit.to("kg").down() == "1 587 kg"


def test_the_kilogram_governs_where_it_is_the_lower() -> None:
    """1587 kg against 3500 lb."""
    one = hold(position=plain_position(max_mass={"K": mass("3500 lb")}))
    found = cell(one, unit_type(max_gross=mass("1587 kg")))
    assert str(found.limit) == "1587 kg"
    assert found.governing is not None
    assert found.governing.kind == "unit-maximum"


@pytest.mark.parametrize(
    ("load", "base_length", "passes"),
    [
        ("700 kg", "1.2 m", True),
        ("700 kg", "1.1 m", False),
        ("760 kg", "1.1 m", False),
        ("760 kg", "1.2 m", False),
    ],
)
def test_running_load_of_630_kg_per_metre(load: str, base_length: str, passes: bool) -> None:
    """EASA-style theory item named in limits.md: limit 630 kg/m; of four boxes only 700 kg on 1.2 m
    (583 kg/m) may be loaded.
    """
    one = hold(floor=plain_floor(running=running("630 kg/m")))
    limit = candidate(cell(one, unit_type(base=(base_length, "1 m"))), "running-load").mass
    assert (quantity(load, Dimension.MASS) <= limit) is passes


def test_running_load_is_exact_in_the_unit_it_is_written_in() -> None:
    """Hand-worked: 45.2 lb/in x 61.5 in = 2779.8 lb."""
    one = hold(floor=plain_floor(running=running("45.2 lb/in")))
    found = candidate(cell(one, unit_type(base=("61.5 in", "60 in"))), "running-load")
    assert (found.mass.value, found.mass.unit.symbol) == (Fraction("2779.8"), "lb")
    assert found.reckoning == "45.2 lb/in × base length 61.5 in = 2 779.8 lb"
    assert found.sources == (SourceRef("WB", "5-1"), SourceRef("ULD", "2"))


def test_area_load_counts_only_where_units_bear_on_the_floor() -> None:
    """Hand-worked: 732 kg/m2 x 1.5 m x 1.4 m = 1537.2 kg."""
    bearing = hold(floor=plain_floor(area=area("732 kg/m2"), bears_on_floor=True))
    found = candidate(cell(bearing, unit_type(base=("1.5 m", "1.4 m"))), "area-load")
    assert found.mass.si == Fraction("1537.2")
    assert found.reckoning == "732 kg/m2 × base 1.5 m × 1.4 m = 1 537.2 kg"
    rolling = hold(floor=plain_floor(area=area("732 kg/m2")))
    assert "area-load" not in [each.kind for each in cell(rolling).candidates]


@pytest.mark.parametrize(
    ("sides", "floor_limit", "pounds"),
    [
        (("36 in", "48 in"), "169 lb/ft2", "2028"),
        (("33.5 in", "48.5 in"), "76 lb/ft2", "857.5069"),
    ],
)
def test_area_load_of_pallets(sides: tuple[str, str], floor_limit: str, pounds: str) -> None:
    """FAA airline transport pilot knowledge-test style items (limits.md): length x width in inches / 144 x
    floor limit in lb/ft2, before pallet and tie-downs are taken off: 1948.0 + 80 and 786.5 + 71.
    """
    one = hold(floor=plain_floor(area=area(floor_limit), bears_on_floor=True))
    found = candidate(cell(one, unit_type(base=sides)), "area-load")
    assert found.mass.unit.symbol == "lb"
    assert abs(found.mass.value - Fraction(pounds)) < Fraction("0.2")


def test_restraints_of_a_direction_add_up() -> None:
    """Hand-worked: (44 + 17.8 + 100) kN / (1.5 x 9.80665 m/s2) = 161 800 / 14.709975 = 10 999.34... kg."""
    one = hold(
        restraint("end-stop", forward="44 kN", up="1 kN"),
        restraint("lock", forward="17.8 kN", aft="17.8 kN"),
        position=plain_position(held_by=("end-stop", "lock", "box", "lock")),
    )
    found = candidate(cell(one), "restraint-forward")
    assert found.mass.si == Fraction(161_800) / (Fraction("1.5") * Fraction("9.80665"))
    assert found.mass.down() == "10 999 kg"
    assert found.reckoning == (
        "(end stop 44 kN + lock 17.8 kN + box 100 kN) / (1.5 × 9.80665 m/s2) = 10 999.3… kg"
    )


def test_ratings_in_pounds_force_give_pounds() -> None:
    """A pound-force holds one pound at 1 g (definition): 9000 lbf at 1.5 g holds 6000 lb."""
    one = hold(
        restraint("l", up="9000 lbf"), position=plain_position(held_by=("l",)), factors={"up": "1.5 g"}
    )
    found = candidate(cell(one), "restraint-up")
    assert (found.mass.value, found.mass.unit.symbol) == (Fraction(6000), "lb")
    assert found.reckoning == "(l 9000 lbf) / (1.5 × 9.80665 m/s2) = 6 000 lb"


@pytest.mark.parametrize(
    ("factors", "ratings"),
    [
        (
            {"up": "3.0 g", "forward": "9.0 g", "left": "3.0 g", "right": "3.0 g", "aft": "1.5 g"},
            {"up": 29_419.95, "forward": 88_259.85, "left": 29_419.95, "right": 29_419.95, "aft": 14_709.975},
        ),
        (
            {"up": "2.0 g", "forward": "3.0 g", "left": "1.5 g", "right": "1.5 g", "aft": "1.5 g"},
            {
                "up": 19_613.3,
                "forward": 29_419.95,
                "left": 14_709.975,
                "right": 14_709.975,
                "aft": 14_709.975,
            },
        ),
    ],
    ids=["14 CFR 25.561(b)(3), ultimate", "TM 10-3930-673-10, appendix F"],
)
def test_factors_of_published_rules_hold_a_tonne(factors: dict[str, str], ratings: dict[str, float]) -> None:
    """With the published factors, a rating of exactly 1000 kg x n x g0 holds exactly 1000 kg each way."""
    item = restraint("l", **{direction: f"{value} N" for direction, value in ratings.items()})
    one = hold(item, position=plain_position(held_by=("l",)), factors=factors)
    for direction in factors:
        assert candidate(cell(one), f"restraint-{direction}").mass.si == 1000


def test_a_factor_in_metres_per_second_squared() -> None:
    one = hold(factors={"up": "20 m/s2"})
    assert candidate(cell(one), "restraint-up").reckoning == "(box 100 kN) / 20 m/s2 = 5 000 kg"


def test_a_direction_without_a_rated_restraint_is_not_acceptable() -> None:
    item = restraint("rail", left="30 kN", right="0 kN", up="30 kN", forward="30 kN")
    found = cell(hold(item, position=plain_position(held_by=("rail",))))
    assert (found.limit, found.governing, found.candidates) == (None, None, ())
    assert found.reasons == (
        "nothing that holds it is rated aft (load factor 1.5 g)",
        "nothing that holds it is rated right (load factor 1.2 g)",
    )


def test_a_direction_without_a_load_factor_asks_for_nothing() -> None:
    item = restraint("rail", up="30 kN")
    found = cell(hold(item, position=plain_position(held_by=("rail",)), factors={"up": "2 g", "aft": "0 g"}))
    assert [each.kind for each in found.candidates if each.kind.startswith("restraint")] == ["restraint-up"]


def test_zone_that_one_unit_could_exceed_alone() -> None:
    small = Zone("sill", "sill area", ("1",), mass("900 kg"))
    wide = Zone("all", "whole hold", ("1",), mass("1000 kg"))
    other = Zone("far", "far end", ("2",), mass("10 kg"))
    unlimited = Zone("none", "no limit", ("1",), None)
    found = cell(hold(zones=(small, wide, other, unlimited)))
    assert [each.kind for each in found.candidates if each.kind.startswith("zone")] == ["zone-sill"]
    assert found.governing is not None
    assert (found.governing.kind, str(found.limit)) == ("zone-sill", "900 kg")
    assert found.governing.title == "combined limit of sill area"


def test_limits_by_base_and_by_type_both_count() -> None:
    one = hold(position=plain_position(max_mass={"K": mass("800 kg"), "AAA": mass("850 kg")}))
    titles = [each.title for each in cell(one).candidates if each.kind == "position-limit"]
    assert titles == ["position limit for base K", "position limit for type AAA"]


def test_places_are_those_of_the_numbers() -> None:
    there = Place("fleet/holds/ONE.yaml", ("positions", "1", "max", "K"))
    limit = Stated(quantity("900 kg", Dimension.MASS), None, there)
    found = cell(hold(position=plain_position(max_mass={"K": limit})))
    assert candidate(found, "position-limit").places == (there,)
    assert candidate(found, "position-limit").sources == ()


@pytest.mark.parametrize(
    ("kind", "reason"),
    [
        (unit_type(base=("1.61 m", "1.5 m")), "its base K is 1.61 m long; the bay is 1.6 m long"),
        (unit_type(base=("1.5 m", "1601 mm")), "its base K is 1601 mm wide; the bay is 1.6 m wide"),
        (unit_type(height=length("1.11 m")), "it is 1.11 m high; the cargo door is 1.1 m high"),
        (unit_type(contour="H"), "its contour is H; the position takes contour E, F"),
        (
            unit_type(base=BaseSize("M", length("1 m"), length("1 m"))),
            "the position lists neither its base M nor its type (listed: K)",
        ),
    ],
    ids=["base too long", "base too wide", "too high for the door", "contour", "not listed"],
)
def test_not_acceptable_says_why(kind: UnitType, reason: str) -> None:
    one = hold(position=plain_position(contours=("E", "F")))
    found = cell(one, kind)
    assert found.reasons == (reason,)
    assert found.limit is None


def test_too_high_for_hold_and_position_and_too_long_for_the_door() -> None:
    one = hold(position=plain_position(height=length("0.9 m")), door=("1.4 m", "2 m"))
    assert cell(one, unit_type(height=length("1.3 m"))).reasons == (
        "it is 1.3 m high; the hold has 1.2 m of clear height",
        "its base is 1.5 m long; the cargo door is 1.4 m wide",
        "it is 1.3 m high; the position allows 0.9 m",
    )


def test_the_table_has_every_position_with_every_type_in_order() -> None:
    types = {"BBB": unit_type(code="BBB"), "AAA": unit_type()}
    table = position_table(hold(), types)
    assert [(each.position, each.unit_type) for each in table.cells] == [("1", "BBB"), ("1", "AAA")]
    assert table.hold == "ONE"


def test_candidates_are_sorted_and_the_first_governs() -> None:
    found = cell(hold(floor=plain_floor(running=running("500 kg/m"))))
    assert [each.mass for each in found.candidates] == sorted(each.mass for each in found.candidates)
    assert found.candidates[0].kind == "running-load"
    assert found.limit == found.candidates[0].mass


def test_every_zone_limit_that_one_unit_could_exceed_alone_is_a_candidate() -> None:
    """Bay 1 is 1.6 m long and the unit 1.5 m in its middle: 1000 kg over 1.5 m."""
    bay = hold().bays["1"].rectangle.x
    quarter = Span1(bay.low, of(bay.low.si + Fraction(425, 1000), "m"))
    stretch = Zone("nose", "nose", (), mass("200 kg"), x=quarter)
    rows = Zone("rows", "rows", ("1",), None, running=running("600 kg/m"), asymmetry=mass("10 kg"))
    wide = Zone("wide", "wide", ("1",), None, running=running("700 kg/m"))
    ends = ((bay.low, mass("100 kg")), (of(bay.low.si + Fraction(8, 10), "m"), mass("400 kg")))
    line = CumulativeLine("front", "front", LoadDirection.FORWARD, ends)
    found = cell(replace(hold(zones=(stretch, rows, wide)), cumulative={"front": line}))
    shared = {one.kind: one for one in found.candidates if one.kind.startswith(("zone", "cumulative"))}
    # A quarter of the unit stands in the stretch; half of it forward of the line's last point.
    assert {kind: str(one.mass) for kind, one in shared.items()} == {
        "cumulative-front": "800 kg",
        "zone-nose": "800 kg",
        "zone-running-rows": "900 kg",
    }
    assert shared["zone-nose"].reckoning == "there stands 25 % of it: 200 kg / 25 % = 800 kg"
    assert "600 kg/m × 1.5 m of floor = 900 kg" in shared["zone-running-rows"].reckoning
    assert all(one.sources for one in shared.values())
