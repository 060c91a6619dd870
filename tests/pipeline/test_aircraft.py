"""A whole aircraft: the weights of its procedures, the order of its holds, and what its page says."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from functools import cache
from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.diff import differences
from procgen.limits.described import limits_of
from procgen.limits.given import check_given
from procgen.limits.stability import order_holds, stances, total
from procgen.limits.stability_tables import verdict
from procgen.model.stated import Stated
from procgen.model.step import Drive, PlannedUnit, Present, Procedure, Push
from procgen.model.words import OUTSIDE, Operation
from procgen.pipeline.aircraft import full_load, gear_of, sequence, start_of
from procgen.pipeline.aircraft_pages import aircraft_sites
from procgen.pipeline.checking import Checked, check, derive
from procgen.pipeline.weights import middle, weights_of
from procgen.results.difference import DifferenceClass
from procgen.results.load_check import GivenUnit
from procgen.results.page import StationSite
from procgen.results.plan import NoPlan
from procgen.results.sequence import NoSequence, Sequence
from procgen.results.stability import Gear, Mass
from procgen.units import of
from tests.support import demo, demo_hold

PETREL = demo().network.aircraft["PETREL-500"]
PETREL_HOLDS = ("TR-FWD", "MX-AFT", "BK-AFT")


@cache
def plans(operation: Operation) -> Mapping[str, Procedure]:
    """The derived procedures of the Petrel's holds."""
    found = {}
    for name in PETREL_HOLDS:
        outcome = derive(demo().network, demo_hold(name), operation)
        assert not isinstance(outcome, NoPlan)
        found[name] = outcome
    return found


def unit(hold: str, position: str, mass: str, code: str = "AKE") -> GivenUnit:
    return GivenUnit(hold, position, code, of(mass, "kg"))


def worked(operation: Operation, *units: GivenUnit, aboard: tuple[GivenUnit, ...] = ()) -> Sequence:
    found = sequence(demo().network, PETREL, operation, units, aboard)
    assert isinstance(found, Sequence)
    return found


FORWARD = (unit("TR-FWD", "11L", "1200"), unit("TR-FWD", "11R", "1200"))
AFT = tuple(unit("MX-AFT", position, "1400") for position in ("31L", "31R", "35L", "35R"))
BULK = (unit("BK-AFT", "53", "1000", "BAGS"),)


def test_shares_of_a_small_load_by_hand() -> None:
    """Hand-worked from the demonstration's data: wheels at 4.20 and 27.50 m (base 23.30 m), 118 000 kg at
    25.60 m: 118 000 x 1.90 = 224 200 kg m, share 224 200 / 118 000 / 23.3 = 8.1545 %. 1200 kg at 9.06 m:
    + 1200 x 18.44 = 22 128: 246 328 / 119 200 / 23.3 = 8.8691 %. Another: 268 456 / 120 400 / 23.3 =
    9.5695 %.
    """
    found = worked(Operation.LOADING, *FORWARD)
    assert [round(float(each.nose_share) * 100, 4) for each in found.order.stances] == [
        8.1545,
        8.8691,
        9.5695,
    ]
    assert [each.step for each in found.order.stances] == ["", "TR-FWD 11L in", "TR-FWD 11R in"]
    assert found.order.any_order


def test_a_unit_in_the_doorway_counts_there_by_hand() -> None:
    """Hand-worked: 1400 kg goes to 31L (33.86 m) by way of the doorway at 34 (39.44 m): there 224 200 -
    1400 x 11.94 = 207 484 kg m of 119 400 kg: 7.4580 %; at 31L 224 200 - 1400 x 6.36 = 215 296: 7.7388 %.
    """
    (hold, plan) = demo_hold("MX-AFT"), plans(Operation.LOADING)["MX-AFT"]
    weights = weights_of(hold, plan, {"u31L": of(1400, "kg")})
    gear = gear_of(PETREL)
    assert gear is not None
    found = stances(gear, start_of(demo().network, PETREL, ()), weights)
    shown = [(each.step, each.passing, round(float(each.nose_share) * 100, 4)) for each in found]
    assert shown[1:] == [("MX-AFT 31L passes 34R", True, 7.458), ("MX-AFT 31L in", False, 7.7388)]


def test_the_forward_hold_is_loaded_first_and_unloaded_last() -> None:
    everything = [one for name in PETREL_HOLDS for one in full_load(demo().network, demo_hold(name))]
    loading, unloading = (worked(operation, *everything) for operation in Operation)
    assert loading.order.holds.index("TR-FWD") < loading.order.holds.index("MX-AFT")
    assert unloading.order.holds[-1] == "TR-FWD"
    for found in (loading, unloading):
        assert not found.order.tail_stand
        assert not found.order.any_order
        assert list(found.procedures) == list(found.order.holds)
        assert "Finish one hold before the next" in verdict(found.operation, found.order)


def test_without_anything_forward_a_tail_stand_is_needed_and_it_is_said_where_first() -> None:
    aft = full_load(demo().network, demo_hold("MX-AFT"))
    found = worked(Operation.LOADING, *aft)
    crossed = found.order.crossed
    assert found.order.tail_stand
    assert crossed is not None
    assert crossed.nose_share < Fraction(5, 100)
    before = found.order.stances[: found.order.stances.index(crossed)]
    assert all(each.nose_share >= Fraction(5, 100) for each in before)
    assert crossed.step in verdict(Operation.LOADING, found.order)


def test_what_stays_aboard_counts_from_the_start_and_comes_out_where_it_must() -> None:
    """With a container in 34R, the doorway, nobody gets past: it comes out, and goes back in."""
    stays = (unit("MX-AFT", "34R", "1000"), unit("MX-AFT", "34L", "1000"))
    found = worked(
        Operation.LOADING, unit("MX-AFT", "31R", "1000"), unit("MX-AFT", "31L", "1000"), aboard=stays
    )
    steps = [each.step for each in found.order.stances]
    assert found.procedures["MX-AFT"].put_back
    assert {"MX-AFT 34R out", "MX-AFT 34R in", "MX-AFT 31R in"} <= set(steps)
    first, last = found.order.stances[0], found.order.stances[-1]
    assert [first.mass, last.mass] == [of(120_000, "kg"), of(122_000, "kg")]


@pytest.mark.parametrize(
    ("units", "said"),
    [
        ([unit("MX-AFT", "31L", "1589")], "position 31L: 1 589 kg is above 1 588 kg"),
        ([unit("MX-AFT", "31L", "1400")], "asymmetry"),
        ([unit("MX-AFT", "31L", "400", "PMC")], "PMC may not stand in 31L"),
    ],
)
def test_a_load_beyond_its_limits_is_refused(units: list[GivenUnit], said: str) -> None:
    found = sequence(demo().network, PETREL, Operation.LOADING, units)
    assert isinstance(found, NoSequence)
    assert any(said in reason.message for reason in found.reasons)


def test_an_aircraft_whose_wheels_are_not_described_has_no_order() -> None:
    bare = replace(PETREL, gear=None)
    found = sequence(demo().network, bare, Operation.LOADING, FORWARD)
    assert isinstance(found, NoSequence)
    assert "has no “gear”" in found.reasons[0].message


@pytest.mark.parametrize("name", sorted(demo().network.holds))
def test_a_full_load_is_an_allowed_load(name: str) -> None:
    hold, network = demo_hold(name), demo().network
    load = full_load(network, hold)
    assert check_given(hold, network.unit_types, load).met
    assert limits_of(hold)


@pytest.mark.parametrize("operation", list(Operation))
@pytest.mark.parametrize("name", PETREL_HOLDS)
def test_weights_add_up_to_what_stands_in_the_hold(name: str, operation: Operation) -> None:
    hold, plan = demo_hold(name), plans(operation)[name]
    masses = {unit: of(100 + number, "kg") for number, unit in enumerate(plan.units)}
    weights = weights_of(hold, plan, masses)
    sign = 1 if operation is Operation.LOADING else -1
    standing = [masses[one.name].si for one in plan.units.values()]
    moments = [masses[one.name].si * middle(hold, one.bay) for one in plan.units.values()]
    assert sum(one.mass.si for one in weights) == sign * sum(standing)
    assert sum(one.moment for one in weights) == sign * sum(moments)


def test_a_unit_that_moves_in_two_steps_or_never_comes_in() -> None:
    hold, u = demo_hold("SR-AFT"), PlannedUnit("u", "AKH", "42")
    steps = (
        Present("u"),
        Drive("u", {}, (OUTSIDE, "44")),
        Push("u", 2, ("44", "43", "42")),
    )
    one = Procedure("p", "SR-AFT", Operation.LOADING, {"u": u}, steps)
    found = weights_of(hold, one, {"u": of(100, "kg")})
    assert [each.name for each in found] == ["SR-AFT 42 passes 44", "SR-AFT 42 in"]
    assert weights_of(hold, replace(one, steps=steps[:1]), {"u": of(100, "kg")}) == ()
    inside = replace(one, steps=(Drive("u", {}, ("42", "43")), Drive("u", {}, ("43", "42"))))
    moved = weights_of(hold, inside, {"u": of(100, "kg")})
    assert [each.name for each in moved] == ["SR-AFT 42 passes 43", "SR-AFT 42 to 42"]
    assert sum(each.moment for each in moved) == 0


SHIFTS = st.lists(st.tuples(st.integers(1, 3000), st.integers(0, 30), st.integers(0, 5)), max_size=3)


def _weights(name: str, units: list[tuple[int, int, int]]) -> tuple[Mass, ...]:
    """Units that come in `further` metres aft of where they go."""
    found: list[Mass] = []
    for mass, x, further in units:
        came = Mass.at(f"{name} passes", of(mass, "kg"), of(x + further, "m"))
        found += [replace(came, passing=True), Mass(name, of(0, "kg"), Fraction(-mass * further))]
    return tuple(found)


@settings(deadline=None, max_examples=40)
@given(st.lists(SHIFTS, min_size=1, max_size=3), st.integers(8, 12), st.integers(0, 15))
def test_the_order_counts_units_on_their_way_and_less_aft_is_never_worse(
    groups: list[list[tuple[int, int, int]]], x: int, least: int
) -> None:
    gear = Gear(of(2, "m"), of(12, "m"), Stated(of(least, "%"), None))
    start = Mass.at("empty", of(9000, "kg"), of(x, "m"))
    holds = {f"h{number}": _weights(f"h{number}", group) for number, group in enumerate(groups)}
    found = order_holds(gear, start, holds)

    def worst(order: tuple[str, ...]) -> Fraction:
        aboard, least_share = start, Fraction(12 - x, 10)
        for step in (step for name in order for step in holds[name]):
            aboard = total("", [aboard, step])
            least_share = min(least_share, (12 - aboard.moment / aboard.mass.si) / 10)
        return least_share

    best = max(map(worst, permutations(holds)))
    assert found.worst.nose_share == worst(found.holds) == best
    assert found.tail_stand is (best < Fraction(least, 100))
    # A unit whose whole way is aft of the mains takes weight off the nose: without it, never worse.
    lighter = {
        name: _weights(name, [one for one in group if one[1] < 12])
        for name, group in zip(holds, groups, strict=True)
    }
    assert order_holds(gear, start, lighter).worst.nose_share >= min(best, found.worst.nose_share)


@cache
def checked() -> Checked:
    return check(demo())


def test_a_station_says_the_order_and_what_it_assumes() -> None:
    sites = {one.name: one for one in aircraft_sites(checked(), demo().network.stations["K1B"])}
    assert sites["PETREL-500-loading"].verdict.startswith("Load TR-FWD, then ")
    assert "tail stand is needed" in sites["PETREL-500-loading-aft"].verdict
    assert any("as heavy as its position" in one for one in sites["PETREL-500-loading"].table.remarks)
    assert sites["PETREL-500-unloading"].table.met
    assert not sites["PETREL-500-loading-aft"].table.met
    assert sites["PETREL-500-loading"].lines
    assert "pg-cross" in sites["PETREL-500-loading-aft"].chart
    assert "pg-cross" not in sites["PETREL-500-loading"].chart


def test_another_order_from_the_same_data_is_a_difference_and_a_first_one_is_none() -> None:
    """Releases made before the order was published say nothing of it; what changes later owes an answer."""
    sites = tuple(aircraft_sites(checked(), demo().network.stations["K1B"]))
    station = StationSite("Test Air", demo().network.stations["K1B"], (), sites)
    other = replace(station, aircraft=(replace(sites[0], verdict="Load MX-AFT first."), *sites[1:]))
    (found,) = differences(station, other)
    assert found.identity == "aircraft/PETREL-500-loading/verdict"
    assert found.classed is DifferenceClass.LOOSENED
    assert differences(station, replace(station, aircraft=())) == ()
    assert differences(replace(station, aircraft=()), station) == ()
    assert differences(station, replace(other, airline="Other Air"))[0].identity != found.identity
