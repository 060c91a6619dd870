"""What the machine must reproduce, tried on the single-row demo hold, from its data alone.

Every claim here is common practice of the trade, no source.
"""

from __future__ import annotations

import pytest

from procgen.model.hold import Hold
from procgen.model.step import Check, CheckLatch, Close, Lower, Open, Present, Raise, SetControl, Step
from procgen.model.words import Looker, Operation
from procgen.results.plan import Plan
from tests.plan.planning import (
    UnitTypes,
    at,
    findings,
    first_move,
    last_move,
    moves,
    moves_of,
    order,
    planned,
)
from tests.support import demo, demo_hold, demo_with

FILE = "fleet/holds/SR-AFT.yaml"
LANE = ["41", "42", "43"]
ON, OFF = SetControl("power-switch", "on"), SetControl("power-switch", "off")


@pytest.fixture(scope="module")
def hold() -> Hold:
    return demo_hold("SR-AFT")


@pytest.fixture(scope="module")
def types() -> UnitTypes:
    return demo().network.unit_types


@pytest.fixture(scope="module")
def loading(hold: Hold, types: UnitTypes) -> Plan:
    return planned(hold, types, Operation.LOADING)


@pytest.fixture(scope="module")
def unloading(hold: Hold, types: UnitTypes) -> Plan:
    return planned(hold, types, Operation.UNLOADING)


# 1. Loading (common practice of the trade, no source)


def test_loading_sill_lock_down_then_panel_then_power_then_units(loading: Plan) -> None:
    begin: list[Step] = [Open("aft-door"), Lower("sill-lock"), Open("control-panel"), ON]
    places = [at(loading, step) for step in begin]
    assert places == sorted(places)
    assert places[-1] < first_move(loading)


@pytest.mark.parametrize("bay", LANE)
def test_loading_each_lane_unit_moves_sideways_first_then_along(loading: Plan, bay: str) -> None:
    across, along = moves_of(loading, f"u{bay}")
    row = ["44", "43", "42", "41"]
    assert across.through == ("outside", "44")
    assert across.hold == {"stick": "in"}
    assert along.through == tuple(row[: row.index(bay) + 1])
    assert along.hold == {"stick": "forward", "guide-switch": "forward"}


@pytest.mark.parametrize("bay", LANE)
def test_loading_the_lock_goes_up_by_hand_right_after_the_unit_arrives(loading: Plan, bay: str) -> None:
    assert at(loading, Raise(f"lock-{bay}")) == last_move(loading, f"u{bay}") + 1


def test_loading_the_doorway_bay_comes_last_and_moves_sideways_only(loading: Plan) -> None:
    assert order(loading) == ["u41", "u42", "u43", "u44"]
    assert [move.through for move in moves_of(loading, "u44")] == [("outside", "44")]


def test_loading_ends_with_sill_lock_up_power_off_panel_closed_door_closed(loading: Plan) -> None:
    assert [step for step in loading.steps if not isinstance(step, Check)][-6:] == [
        Raise("sill-lock"),
        OFF,
        Close("control-panel"),
        Close("aft-door"),
        CheckLatch("aft-door", Looker.CLOSER),
        CheckLatch("aft-door", Looker.SECOND),
    ]


def test_loading_the_path_is_confirmed_for_every_unit_once_it_is_at_the_sill(loading: Plan) -> None:
    for unit in order(loading):
        assert loading.steps[first_move(loading, unit) - 2 : first_move(loading, unit)] == (
            Present(unit),
            Check("path-clear"),
        )


# 2. Unloading (common practice of the trade, no source)


def test_unloading_the_doorway_bay_comes_first(unloading: Plan) -> None:
    assert order(unloading) == ["u44", "u43", "u42", "u41"]


def test_unloading_the_sill_handle_is_held_for_every_unit_that_leaves(unloading: Plan) -> None:
    leaving = [move for move in moves(unloading) if move.through[-1] == "outside"]
    assert [move.hold for move in leaving] == [{"stick": "out", "sill-handle": "down"}] * 4


def test_unloading_the_inner_guide_goes_down_by_hand_before_the_first_unit_passes_it(unloading: Plan) -> None:
    assert at(unloading, Lower("inner-guide")) < first_move(unloading)
    assert at(unloading, Raise("inner-guide")) > last_move(unloading, "u41")


@pytest.mark.parametrize("bay", LANE)
def test_unloading_locks_are_released_for_the_next_unit_only(unloading: Plan, bay: str) -> None:
    units = order(unloading)
    before = units[units.index(f"u{bay}") - 1]
    released = at(unloading, Lower(f"lock-{bay}"))
    assert last_move(unloading, before) < released < first_move(unloading, f"u{bay}")


@pytest.mark.parametrize("bay", LANE)
def test_unloading_the_side_guide_is_overridden_without_its_switch(unloading: Plan, bay: str) -> None:
    assert moves_of(unloading, f"u{bay}")[0].hold == {"stick": "aft"}


# 3. One word changed in the YAML (common practice of the trade, no source)

SIDE_GUIDE = 'between: ["44", "43"]\n    stops: [forward, aft]\n    override: [{}]'


def test_a_side_guide_that_gives_way_forward_stops_the_way_out(hold: Hold, types: UnitTypes) -> None:
    changed = demo_with(FILE, SIDE_GUIDE.format("aft"), SIDE_GUIDE.format("forward")).network.holds["SR-AFT"]
    loading = planned(changed, types, Operation.LOADING)
    unloading = planned(changed, types, Operation.UNLOADING)
    assert moves_of(loading, "u41")[1].hold == {"stick": "forward"}
    assert moves_of(unloading, "u41")[0].hold == {"stick": "aft", "guide-switch": "forward"}
    assert findings(changed, types, planned(hold, types, Operation.UNLOADING))


# Where every step comes from


def test_every_step_points_at_what_caused_it(loading: Plan, unloading: Plan) -> None:
    for step in (*loading.steps, *unloading.steps):
        assert step.place.file == FILE
    routes = {step.place.route for step in loading.steps}
    assert {("restraints", "lock-41"), ("drives", "lane-drive"), ("positions", "41")} <= routes
