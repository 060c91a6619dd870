"""Section 2: limits on several units together."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.limits.described import limits_of
from procgen.limits.linear import largest_sum
from procgen.limits.zones import check_load, least_spacing, most_together, overlap, placed, rows
from procgen.model.stated import Span1, Stated
from procgen.model.words import LoadDirection
from procgen.results.load_limits import (
    AsymmetryLimit,
    CombinedLimit,
    CumulativeLimit,
    LoadLimit,
    PairLimit,
    Placed,
    RunningLimit,
)
from procgen.results.uses import first_to_bind
from procgen.units import of
from tests.limits.holds import WB, length, mass, running
from tests.support import demo, demo_hold


def span(low: str, high: str) -> Span1:
    return Span1(length(f"{low} m"), length(f"{high} m"))


def unit(position: str, kilograms: str, x: tuple[str, str], y: tuple[str, str] = ("-0.5", "0.5")) -> Placed:
    return Placed(f"u{position}", position, of(kilograms, "kg"), span(*x), span(*y))


ROW = (
    unit("1", "1000", ("10", "12")),
    unit("2", "800", ("12", "14")),
    unit("3", "600", ("14", "16")),
)


def test_combined_limit_of_positions() -> None:
    """Hand-worked: 1000 + 800 of 2000 kg."""
    (use,) = check_load(ROW, [CombinedLimit("fwd", "forward part", mass("2000 kg"), ("1", "2"))])
    assert (use.kind, use.title, str(use.used), use.met) == ("combined", "forward part", "1 800 kg", True)
    assert use.margin == of(200, "kg")
    assert use.reckoning == "1 000 kg (u1) + 800 kg (u2) = 1 800 kg of 2000 kg"
    assert use.sources == (WB,)


def test_zone_edge_through_a_unit_splits_it_in_proportion() -> None:
    """Hand-worked: zone from 10 m to 13.5 m: all of 1000 kg and three quarters of 800 kg, 1600 kg."""
    (use,) = check_load(ROW, [CombinedLimit("z", "zone", mass("1500 kg"), x=span("10", "13.5"))])
    assert use.used.si == 1600
    assert not use.met
    assert use.reckoning == "1 000 kg (u1) + 800 kg (u2) × 75 % = 1 600 kg of 1500 kg"
    assert overlap(span("12", "14"), span("10", "13.5")) == Fraction(3, 4)


@pytest.mark.parametrize(("second", "met"), [("2300", True), ("2300.1", False)])
def test_adjacent_pair(second: str, met: bool) -> None:
    """Sum of neighbours <= 4300 lb. Source: TM 55-1680-358-12&P (limits.md)."""
    pair = PairLimit("12", "positions 1 and 2", mass("4300 lb"), ("1", "2"))
    units = [replace(ROW[0], mass=of(2000, "lb")), replace(ROW[1], mass=of(second, "lb")), ROW[2]]
    (use,) = check_load(units, [pair])
    assert use.met is met
    assert use.used.unit.symbol == "lb"


def test_spacing_under_a_running_load() -> None:
    """Spacing W/45.2 in: 3000 lb -> 66 in (66.37: the published value is cut; a demand is shown up, as 67).
    Source: TM 55-1680-358-12&P (limits.md).
    """
    spacing = least_spacing(of(3000, "lb"), of("45.2", "lb/in"))
    assert spacing.value == Fraction(30_000, 452)
    assert spacing.down() == "66 in"
    assert spacing.up() == "67 in"


def test_running_load_counts_both_of_two_abreast() -> None:
    """Hand-worked: 1000 kg on 2 m and, from 11 m on, 600 kg on 3 m beside it: 500 + 200 kg/m up to 12."""
    units = [unit("1L", "1000", ("10", "12"), ("-1", "0")), unit("1R", "600", ("11", "14"), ("0", "1"))]
    (use,) = check_load(units, [RunningLimit("run", "running load", running("650 kg/m"))])
    assert use.used == of(700, "kg/m")
    assert not use.met
    assert use.reckoning.startswith("x = 11 m to 12 m: 1 000 kg (u1L) / 2 m + 600 kg (u1R) / 3 m = ")
    assert use.reckoning.endswith(" = 700 kg/m of 650 kg/m")
    (elsewhere,) = check_load(units, [RunningLimit("run", "run", running("650 kg/m"), span("12", "14"))])
    assert elsewhere.used == of(200, "kg/m")


@pytest.mark.parametrize(
    ("load", "base", "passes"),
    [("700", "1.2", True), ("700", "1.1", False), ("760", "1.1", False), ("760", "1.2", False)],
)
def test_running_load_of_630_kg_per_metre(load: str, base: str, passes: bool) -> None:
    """EASA-style theory item (limits.md): of four boxes only 700 kg on 1.2 m (583 kg/m) may be loaded."""
    one = Placed("box", "1", of(load, "kg"), Span1(of(0, "m"), of(base, "m")), span("-0.5", "0.5"))
    (use,) = check_load([one], [RunningLimit("run", "running load", running("630 kg/m"))])
    assert use.met is passes
    if passes:
        assert use.used.down() == "583 kg/m"


def test_cumulative_limit_from_both_ends() -> None:
    """Hand-worked: forward of 12 m stand 1000 kg, of 13 m 1400, of 16 m 2400. The line from (10, 0) by
    (12, 900) to (16, 3000) allows 900 at 12 m and 1425 at 13 m: it binds first at 12 m.
    From aft: 600 kg aft of 14 m.
    """
    points = tuple((length(f"{x} m"), mass(f"{m} kg")) for x, m in ((10, 0), (12, 900), (16, 3000)))
    forward = CumulativeLimit("cf", "from the forward end", LoadDirection.FORWARD, points)
    (use,) = check_load(ROW, [forward])
    assert (use.kind, use.used, use.limit, use.met) == ("cumulative", of(1000, "kg"), of(900, "kg"), False)
    assert use.reckoning.startswith("forward of x = 12 m: 1 000 kg (u1) = 1 000 kg of 900 kg")
    thirteen = CumulativeLimit(
        "cf", "t", LoadDirection.FORWARD, (*points[:2], (length("13 m"), mass("1400 kg")))
    )
    assert [row.where for row in rows(thirteen, ROW)] == [
        "forward of x = 12 m",
        "forward of x = 13 m",
    ]
    aft = CumulativeLimit(
        "ca",
        "from the aft end",
        LoadDirection.AFT,
        tuple((length(f"{x} m"), mass(f"{m} kg")) for x, m in ((14, 500), (16, 0))),
    )
    (use,) = check_load(ROW, [aft])
    assert (use.used, use.limit) == (of(600, "kg"), of(500, "kg"))
    assert use.reckoning.startswith("aft of x = 14 m")


def test_cumulative_limit_is_looked_at_where_units_begin_and_end() -> None:
    """Hand-worked: the line from (10, 0) to (16, 2400) allows 800 kg at 12 m, where 1000 stand; at both of
    its points the load keeps to it.
    """
    points = ((length("10 m"), mass("0 kg")), (length("16 m"), mass("2400 kg")))
    (use,) = check_load(ROW, [CumulativeLimit("c", "c", LoadDirection.FORWARD, points)])
    assert (use.used, use.limit, use.met) == (of(1000, "kg"), of(800, "kg"), False)


def test_asymmetry_counts_a_unit_across_the_centreline_on_both_sides() -> None:
    """Hand-worked: right 900 kg, left 400 kg, one across of 500 kg: 500 kg of difference."""
    units = [
        unit("1R", "900", ("10", "12"), ("0", "1")),
        unit("1L", "400", ("10", "12"), ("-1", "0")),
        unit("2", "500", ("12", "14"), ("-1", "1")),
    ]
    (use,) = check_load(units, [AsymmetryLimit("a", "left and right", mass("450 kg"))])
    assert (use.used, use.met) == (of(500, "kg"), False)
    assert use.reckoning.startswith("right over left: ")
    lopsided = [replace(units[0], mass=of(100, "kg")), *units[1:]]
    (use,) = check_load(lopsided, [AsymmetryLimit("a", "left and right", mass("450 kg"))])
    assert (use.used, use.met) == (of(300, "kg"), True)
    assert use.reckoning.startswith("left over right: ")
    (use,) = check_load(units, [AsymmetryLimit("a", "a", mass("450 kg"), span("11", "14"))])
    assert use.used.si == 250


def test_first_to_bind_is_the_one_used_furthest() -> None:
    limits: list[LoadLimit] = [
        CombinedLimit("all", "all", mass("3000 kg"), ("1", "2", "3")),
        PairLimit("12", "pair", mass("2000 kg"), ("1", "2")),
        RunningLimit("run", "running load", running("600 kg/m")),
    ]
    uses = check_load(ROW, limits)
    assert [use.share for use in uses] == [Fraction(4, 5), Fraction(9, 10), Fraction(5, 6)]
    assert first_to_bind(uses) is uses[1]
    assert first_to_bind([]) is None


def test_a_limit_that_nothing_comes_under_is_used_by_nothing() -> None:
    (use,) = check_load(ROW, [CombinedLimit("far", "far end", mass("10 kg"), ("9",))])
    assert (use.used, use.met, use.reckoning) == (of(0, "kg"), True, "nothing = 0 kg of 10 kg")


def test_the_most_a_zone_takes_and_what_stops_it() -> None:
    """Hand-worked: caps 1000, 800, 600; the first two at most 1500 together: 1500 + 600 = 2100 kg."""
    pair = PairLimit("12", "pair", mass("1500 kg"), ("1", "2"))
    most = most_together(ROW, [pair, CombinedLimit("all", "all", mass("3000 kg"), ("1", "2", "3"))])
    assert most.total == of(2100, "kg")
    assert [use.title for use in most.stopped_by] == ["pair"]
    assert most.stopped_by[0].used == of(1500, "kg")
    assert most.own_limits == ("u3",)
    free = most_together(ROW, [])
    assert (free.total, free.stopped_by, free.own_limits) == (of(2400, "kg"), (), ("u1", "u2", "u3"))
    assert most_together([], []).total == of(0, "kg")


def test_the_single_row_demonstration_hold() -> None:
    """Hand-worked: three units of 1134 kg and 1000 kg at the door are 4402 kg; the hold takes 4000 kg."""
    hold, types = demo_hold("SR-AFT"), demo().network.unit_types
    own = {"41": "1134 kg", "42": "1134 kg", "43": "1134 kg", "44": "1000 kg"}
    units = [placed(hold, types["AKH"], name, mass(most).quantity) for name, most in own.items()]
    assert [limit.name for limit in limits_of(hold)] == ["aft-hold", "mid-frames", "from-aft"]
    limits = limits_of(hold)[:1]
    (combined,) = check_load(units, limits)
    assert (combined.used, combined.met) == (of(4402, "kg"), False)
    most = most_together(units, limits)
    assert most.total == of(4000, "kg")
    assert [use.title for use in most.stopped_by] == ["aft hold"]


def test_a_described_stretch_counts_only_what_stands_in_it() -> None:
    """Hand-worked: bases of 1.534 m about 11.68, 13.30 and 14.92 m; from 12.20 to 14.40 m lie all of the
    middle one and 0.247 m of each neighbour.
    """
    hold, types = demo_hold("SR-AFT"), demo().network.unit_types
    units = [placed(hold, types["AKH"], name, of(1000, "kg")) for name in ("41", "42", "43")]
    (use,) = check_load(units, [limit for limit in limits_of(hold) if limit.name == "mid-frames"])
    assert use.used.si == 1000 + 2000 * Fraction(247, 1534)
    assert use.met


def test_nothing_stops_a_sum_without_limits_and_bounds_below_zero_are_refused() -> None:
    with pytest.raises(ValueError, match="nothing stops"):
        largest_sum([Fraction(1)], [[Fraction(-1)]], [Fraction(1)])
    with pytest.raises(ValueError, match="at least zero"):
        largest_sum([Fraction(1)], [[Fraction(1)]], [Fraction(-1)])


NUMBERS = st.integers(-4, 6).map(Fraction)


@settings(deadline=None, max_examples=80)
@given(st.data())
def test_largest_sum_agrees_with_a_look_at_every_corner(data: st.DataObject) -> None:
    """Of two unknowns, the best point is a corner: every crossing of two lines is tried as an independent
    answer.
    """
    extra = data.draw(st.lists(st.tuples(NUMBERS, NUMBERS, st.integers(0, 20).map(Fraction)), max_size=5))
    lines = [(Fraction(1), Fraction(0), Fraction(9)), (Fraction(0), Fraction(1), Fraction(7)), *extra]
    weights = [data.draw(NUMBERS), data.draw(NUMBERS)]
    best = largest_sum(weights, [line[:2] for line in lines], [line[2] for line in lines])
    walls = [*lines, (Fraction(-1), Fraction(0), Fraction(0)), (Fraction(0), Fraction(-1), Fraction(0))]
    sums = []
    for (a, b, e), (c, d, f) in combinations(walls, 2):
        if a * d != b * c:
            x, y = (e * d - b * f) / (a * d - b * c), (a * f - e * c) / (a * d - b * c)
            if all(p * x + q * y <= r for p, q, r in walls):
                sums.append(weights[0] * x + weights[1] * y)
    reached = sum(w * v for w, v in zip(weights, best.values, strict=True))
    assert all(p * best.values[0] + q * best.values[1] <= r for p, q, r in walls)
    assert reached == max(sums)
    assert reached == sum(p * line[2] for p, line in zip(best.prices, lines, strict=True))


POSITIONS = ["1", "2", "3", "4"]


@st.composite
def loads(draw: st.DrawFn) -> list[Placed]:
    units = []
    for position in draw(st.lists(st.sampled_from(POSITIONS), min_size=1, unique=True)):
        low, long = draw(st.integers(0, 80)), draw(st.integers(5, 30))
        left, wide = draw(st.integers(-15, 5)), draw(st.integers(5, 20))
        x = Span1(of(low, "cm"), of(low + long, "cm"))
        y = Span1(of(left, "cm"), of(left + wide, "cm"))
        units.append(Placed(f"u{position}", position, of(draw(st.integers(1, 2000)), "kg"), x, y))
    return units


def kilograms(low: int, high: int) -> st.SearchStrategy[Stated]:
    return st.integers(low, high).map(lambda n: Stated(of(n, "kg"), None))


STRETCH = st.none() | st.tuples(st.integers(0, 60), st.integers(1, 60)).map(
    lambda pair: Span1(of(pair[0], "cm"), of(pair[0] + pair[1], "cm"))
)
LIMITS: st.SearchStrategy[LoadLimit] = st.one_of(
    st.builds(
        CombinedLimit,
        st.just("c"),
        st.just("c"),
        kilograms(0, 4000),
        st.sampled_from([(), ("1", "3")]),
        STRETCH,
    ),
    st.builds(PairLimit, st.just("p"), st.just("p"), kilograms(1, 3000), st.just(("1", "2"))),
    st.builds(
        RunningLimit,
        st.just("r"),
        st.just("r"),
        st.integers(1, 9000).map(lambda n: Stated(of(n, "kg/m"), None)),
        STRETCH,
    ),
    st.builds(
        CumulativeLimit,
        st.just("u"),
        st.just("u"),
        st.sampled_from([LoadDirection.FORWARD, LoadDirection.AFT]),
        st.tuples(kilograms(0, 3000), kilograms(0, 3000)).map(
            lambda pair: ((of(0, "cm"), pair[0]), (of(110, "cm"), pair[1]))
        ),
    ),
)
ASYMMETRIES = st.builds(AsymmetryLimit, st.just("a"), st.just("a"), kilograms(0, 2000), STRETCH)


@settings(deadline=None, max_examples=40)
@given(loads(), st.lists(LIMITS, max_size=4), st.data())
def test_a_load_accepted_stays_accepted_when_a_mass_falls(
    units: list[Placed], limits: list[LoadLimit], data: st.DataObject
) -> None:
    which = data.draw(st.integers(0, len(units) - 1))
    lighter = [
        replace(one, mass=of(one.mass.value / 2, "kg")) if index == which else one
        for index, one in enumerate(units)
    ]
    for before, after in zip(check_load(units, limits), check_load(lighter, limits), strict=True):
        if before.met:
            assert after.met


@settings(deadline=None, max_examples=40)
@given(loads(), st.lists(LIMITS | ASYMMETRIES, max_size=4))
def test_the_most_keeps_to_every_limit_and_nothing_more_fits(
    units: list[Placed], limits: list[LoadLimit]
) -> None:
    most = most_together(units, limits)
    loaded = [replace(one, mass=mass_) for one, (_, mass_) in zip(units, most.masses, strict=True)]
    assert all(0 <= each.mass.si <= one.mass.si for each, one in zip(loaded, units, strict=True))
    assert all(use.met for use in check_load(loaded, limits))
    assert all(use.used == use.limit for use in most.stopped_by)
    assert most.total.si == sum(each.mass.si for each in loaded)
    full = check_load(units, limits)
    if all(use.met for use in full):
        assert most.total.si == sum(one.mass.si for one in units)
    else:
        assert most.stopped_by
        assert most.total.si < sum(one.mass.si for one in units)


@settings(deadline=None, max_examples=40)
@given(loads(), st.lists(LIMITS, min_size=1, max_size=4), st.fractions(1, 3, max_denominator=5), st.data())
def test_a_higher_limit_never_lowers_the_most(
    units: list[Placed], limits: list[LoadLimit], factor: Fraction, data: st.DataObject
) -> None:
    which = data.draw(st.integers(0, len(limits) - 1))

    def more(stated: Stated) -> Stated:
        return Stated(of(stated.quantity.value * factor, stated.quantity.unit.symbol), None)

    one = limits[which]
    raised: LoadLimit
    if isinstance(one, CumulativeLimit):
        raised = replace(one, points=tuple((x, more(stated)) for x, stated in one.points))
    else:
        raised = replace(one, limit=more(one.limit))
    better = [*limits[:which], raised, *limits[which + 1 :]]
    assert most_together(units, better).total >= most_together(units, limits).total


def test_the_twin_row_demonstration_hold_states_every_kind_of_limit() -> None:
    """Hand-worked: two units of 1588 kg abreast on 1.534 m are 2070.4 kg/m, above 2040; so are two
    neighbours, 3176 kg, above 3100. Floor limits of one unit are not among those of several.
    """
    hold, types = demo_hold("TR-FWD"), demo().network.unit_types
    limits = limits_of(hold)
    pairs = [limit.positions for limit in limits if isinstance(limit, PairLimit)]
    assert pairs == [
        (f"{row}{side}", f"{row + 1}{side}") for row, side in ((r, s) for r in (11, 12, 13) for s in "LR")
    ]
    abreast = [placed(hold, types["AKE"], name, of(1588, "kg")) for name in ("11L", "11R")]
    broken = [use for use in check_load(abreast, limits) if not use.met]
    assert [(use.kind, use.used.down(1)) for use in broken] == [
        ("running-load", "2 070.4 kg/m"),
        ("cumulative", "3 176.0 kg"),
    ]
    row = [placed(hold, types["AKE"], name, of(1588, "kg")) for name in ("12L", "13L")]
    over = [use.title for use in check_load(row, limits) if not use.met]
    assert over == ["asymmetry of forward hold", "neighbours 12L and 13L"]
