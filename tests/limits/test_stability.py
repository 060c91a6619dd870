"""Section 8: ground stability."""

from __future__ import annotations

from fractions import Fraction
from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.limits.stability import centre, order_holds, stance, stances, total
from procgen.model.stated import Stated
from procgen.results.stability import Gear, Mass
from procgen.units import of


def gear(nose: str, main: str, least: str = "5") -> Gear:
    return Gear(of(nose, "m"), of(main, "m"), Stated(of(least, "%"), None))


@pytest.mark.parametrize(("mains_to_centre", "published"), [("0.79", "5.92"), ("2.07", "15.51")])
def test_nose_share_of_a_worked_gear_load(mains_to_centre: str, published: str) -> None:
    """Wheelbase 13.35 m, mains to CG 0.79 m -> 5.92 %; 2.07 m -> 15.51 %. Source: worked gear-load example
    (limits.md).
    """
    wheels = gear("3", "16.35")
    standing = stance(
        wheels, Mass.at("all", of(70_000, "kg"), of(Fraction("16.35") - Fraction(mains_to_centre), "m"))
    )
    assert wheels.wheelbase == of("13.35", "m")
    assert round(float(standing.nose_share) * 100, 2) == float(published)
    assert standing.met


def test_loading_sum() -> None:
    """5701 lb / 830 132 lb in; 600@160, 600@180, 600@200, 200@220; fuel 741 / 97 000, 1183 / 199 000 ->
    9625 lb, 155.2 in. Source: TM 55-1510-215-10, table 6-1 (limits.md).
    """
    pound_inch = of(1, "lb").si * of(1, "in").si
    rows = [Mass("basic", of(5701, "lb"), 830_132 * pound_inch)]
    rows += [
        Mass.at("row", of(m, "lb"), of(x, "in")) for m, x in ((600, 160), (600, 180), (600, 200), (200, 220))
    ]
    rows += [
        Mass("fuel", of(741, "lb"), 97_000 * pound_inch),
        Mass("fuel", of(1183, "lb"), 199_000 * pound_inch),
    ]
    everything = total("all", rows)
    assert everything.mass == of(9625, "lb")
    assert everything.mass.unit.symbol == "lb"
    assert round(float(centre(everything).to("in").value), 1) == 155.2


def test_stances_after_every_step() -> None:
    """Hand-worked: wheels at 2 m and 12 m; 10 000 kg at 11 m: share 10 %. 1000 kg at 14 m: moment about the
    mains 10 000 - 2000 = 8000 kg m over 10 m and 11 000 kg: 800 kg, 7.27 %. Another: 600 kg, 5 %. A third:
    400 kg of 13 000 kg, 3.07 %: below 5 %.
    """
    unit = Mass.at("unit", of(1000, "kg"), of(14, "m"))
    found = stances(gear("2", "12"), Mass.at("empty", of(10_000, "kg"), of(11, "m")), [unit] * 3)
    assert [each.nose_load.si for each in found] == [1000, 800, 600, 400]
    assert found[1].nose_share == Fraction(8, 110)
    assert [each.met for each in found] == [True, True, True, False]
    assert [each.step for each in found] == ["", "unit", "unit", "unit"]
    assert found[1].centre.si == Fraction(124_000, 11_000)
    back = stances(
        gear("2", "12"), total("", [Mass("", found[3].mass, found[3].centre.si * 13_000)]), [unit.leaving]
    )
    assert back[1].nose_load.si == 600


def test_forward_hold_goes_first_when_the_aft_one_would_tip() -> None:
    start = Mass.at("empty", of(10_000, "kg"), of(11, "m"))
    aft = [Mass.at(f"a{n}", of(1000, "kg"), of(15, "m")) for n in range(3)]
    forward = [Mass.at(f"f{n}", of(1000, "kg"), of(6, "m")) for n in range(2)]
    order = order_holds(gear("2", "12"), start, {"aft": aft, "forward": forward})
    assert order.holds == ("forward", "aft")
    assert not order.tail_stand
    assert order.worst.step == "a2"
    assert [each.step for each in order.stances] == ["", "f0", "f1", "a0", "a1", "a2"]
    unloading = order_holds(
        gear("2", "12"),
        total("", [start, *aft, *forward]),
        {"forward": [each.leaving for each in forward], "aft": [each.leaving for each in aft]},
    )
    assert unloading.holds == ("aft", "forward")
    assert not unloading.tail_stand


def test_declared_order_stays_where_it_is_allowed() -> None:
    start = Mass.at("empty", of(10_000, "kg"), of(10, "m"))
    holds = {name: [Mass.at(name, of(100, "kg"), of(14, "m"))] for name in ("aft", "bulk", "forward")}
    assert order_holds(gear("2", "12"), start, holds).holds == ("aft", "bulk", "forward")
    assert order_holds(gear("2", "12"), start, {}).holds == ()


def test_no_order_does_it_and_a_tail_stand_is_needed() -> None:
    """Hand-worked: 1000 kg m about the mains stand at first; 3 x 1000 kg x 3 m take it away."""
    start = Mass.at("empty", of(1000, "kg"), of(11, "m"))
    aft = [Mass.at("a", of(3000, "kg"), of(15, "m"))]
    near = [Mass.at("n", of(100, "kg"), of(11, "m"))]
    order = order_holds(gear("2", "12"), start, {"aft": aft, "near": near})
    assert order.tail_stand
    assert order.holds == ("near", "aft")
    assert order.worst.nose_load.si == -790


def test_wheels_the_wrong_way_round_are_refused() -> None:
    with pytest.raises(ValueError, match="aft of the nose gear"):
        gear("12", "2")
    with pytest.raises(ValueError, match="weighs something"):
        centre(Mass("nothing", of(0, "kg"), Fraction(0)))


MASSES = st.lists(
    st.tuples(st.integers(1, 3000), st.integers(0, 30)).map(
        lambda pair: Mass.at(f"{pair[0]}@{pair[1]}", of(pair[0], "kg"), of(pair[1], "m"))
    ),
    max_size=3,
)


@settings(deadline=None, max_examples=60)
@given(st.lists(MASSES, min_size=1, max_size=4), st.integers(8, 12), st.integers(0, 20))
def test_the_order_is_the_best_of_all_and_allowed_where_one_is(
    groups: list[list[Mass]], x: int, least: int
) -> None:
    """Against a walk through every order, as an independent answer."""
    wheels = gear("2", "12", str(least))
    start = Mass.at("empty", of(9000, "kg"), of(x, "m"))
    holds = {f"h{number}": group for number, group in enumerate(groups)}
    answer = order_holds(wheels, start, holds)

    def worst(order: tuple[str, ...]) -> Fraction:
        moment, mass, least_share = Fraction(9000 * (12 - x)), Fraction(9000), Fraction(12 - x, 10)
        for step in (step for name in order for step in holds[name]):
            mass += step.mass.si
            moment += 12 * step.mass.si - step.moment
            least_share = min(least_share, moment / 10 / mass)
        return least_share

    every = list(permutations(holds))
    allowed = [order for order in every if worst(order) >= Fraction(least, 100)]
    assert answer.tail_stand is (not allowed)
    assert worst(answer.holds) == max(map(worst, every))
    assert answer.any_order is (len(allowed) == len(every))
    assert answer.worst.nose_share == worst(answer.holds)
