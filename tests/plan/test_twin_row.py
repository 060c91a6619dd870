"""What the machine must reproduce for the twin-row demo hold, from its data alone.

Every claim here is common practice of the trade, no source.
"""

from __future__ import annotations

from itertools import pairwise

import pytest

from procgen.model.hold import Hold
from procgen.model.step import CheckItems, Close, Drive, Lower, Open, Push, Raise, SetControl
from procgen.model.words import Operation, RestraintState, SectionName
from procgen.results.plan import Plan
from tests.plan.planning import (
    UnitTypes,
    at,
    attempt,
    findings,
    first_move,
    last_move,
    moves,
    moves_of,
    order,
    planned,
    refused,
    section,
)
from tests.support import demo, demo_hold, demo_with

FILE = "fleet/holds/TR-FWD.yaml"
LANE = ["11L", "12L", "13L", "11R", "12R", "13R"]
SILL_LOCKS = ("forward-sill-lock", "aft-sill-lock")
DOORWAY_GUIDES = ("forward-doorway-guide", "aft-doorway-guide")
ON, OFF = SetControl("power-switch", "on"), SetControl("power-switch", "off")

LOCK_AT_REST = "at-rest: {}\n    rating: {{forward: 24 kN"


def _loaded(text: str) -> Hold:
    return demo_with(FILE, demo().documents[FILE].text, text).network.holds["TR-FWD"]


@pytest.fixture(scope="module")
def hold() -> Hold:
    return demo_hold("TR-FWD")


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


@pytest.mark.parametrize("lock", SILL_LOCKS)
def test_loading_sill_locks_go_down_before_power(loading: Plan, lock: str) -> None:
    assert at(loading, Lower(lock)) < at(loading, ON)


def test_loading_the_panel_is_open_before_the_switch_is_set(loading: Plan) -> None:
    assert at(loading, Open("control-panel")) < at(loading, ON)


@pytest.mark.parametrize("guide", DOORWAY_GUIDES)
def test_loading_the_doorway_guides_are_up_before_the_first_unit(loading: Plan, guide: str) -> None:
    assert at(loading, Raise(guide)) < first_move(loading)
    assert Raise(guide) in section(loading, SectionName.PREPARE)


def test_loading_every_lock_in_the_way_is_down_before_the_first_unit(types: UnitTypes) -> None:
    # In the demo the locks are down at rest; here all of them stand up at rest and stay so when vacant.
    text = demo().documents[FILE].text
    hold = _loaded(text.replace(LOCK_AT_REST.format("lowered"), LOCK_AT_REST.format("raised")))
    made = planned(hold, types, Operation.LOADING)
    locks = [f"lock-{bay}" for bay in LANE]
    assert all(at(made, Lower(lock)) < first_move(made) for lock in locks)
    assert all(Lower(lock) in section(made, SectionName.PREPARE) for lock in locks)


def test_loading_what_the_data_presumes_of_the_way_is_looked_at_before_the_first_unit(loading: Plan) -> None:
    looked = [step for step in section(loading, SectionName.PREPARE) if isinstance(step, CheckItems)]
    items = {step.state: set(step.items) for step in looked}
    assert items[RestraintState.LOWERED] == {f"lock-{bay}" for bay in LANE}
    assert items[RestraintState.RAISED] == {"left-side-guide", "right-side-guide"}


@pytest.mark.parametrize("bay", LANE)
def test_loading_each_lane_unit_moves_sideways_first_then_along(loading: Plan, bay: str) -> None:
    side = bay[-1]
    doorway = ("14R",) if side == "R" else ("14R", "14L")
    row = [f"{number}{side}" for number in (14, 13, 12, 11)]
    across, along = moves_of(loading, f"u{bay}")
    assert across.through == ("outside", *doorway)
    assert along.through == tuple(row[: row.index(bay) + 1])


@pytest.mark.parametrize("bay", LANE)
def test_loading_the_powered_guide_and_the_drive_control_are_held_together(loading: Plan, bay: str) -> None:
    side = {"L": "left", "R": "right"}[bay[-1]]
    along = moves_of(loading, f"u{bay}")[1]
    assert along.hold == {f"{side}-lane-stick": "forward", f"{side}-guide-switch": "forward"}


def test_loading_the_powered_guide_comes_up_by_itself(loading: Plan) -> None:
    touched = {step.item for step in loading.steps if isinstance(step, Raise | Lower)}
    assert touched.isdisjoint({"left-side-guide", "right-side-guide"})


@pytest.mark.parametrize("bay", LANE)
def test_loading_the_lock_goes_up_by_hand_right_after_the_unit_arrives(loading: Plan, bay: str) -> None:
    assert at(loading, Raise(f"lock-{bay}")) == last_move(loading, f"u{bay}") + 1


def test_loading_the_lock_is_up_before_the_next_unit(loading: Plan) -> None:
    units = order(loading)
    for unit, following in pairwise(units):
        lock = Raise(f"lock-{unit[1:]}")
        if unit[1:] in LANE:
            assert at(loading, lock) < first_move(loading, following)


def test_loading_the_doorway_bays_come_last_and_move_sideways_only(loading: Plan) -> None:
    assert order(loading)[-2:] == ["u14L", "u14R"]
    assert [move.through for move in moves_of(loading, "u14L")] == [("outside", "14R", "14L")]
    assert [move.through for move in moves_of(loading, "u14R")] == [("outside", "14R")]


def test_loading_the_lanes_fill_from_their_far_ends(loading: Plan) -> None:
    assert order(loading)[:6] == ["u11L", "u12L", "u11R", "u13L", "u12R", "u13R"]


def test_loading_ends_with_sill_locks_up_power_off_panel_closed(loading: Plan) -> None:
    end = [at(loading, Raise(lock)) for lock in SILL_LOCKS]
    assert max(end) < at(loading, OFF) < at(loading, Close("control-panel"))
    assert at(loading, Close("control-panel")) < at(loading, Close("forward-door"))


# 2. Unloading (common practice of the trade, no source)


def test_unloading_sill_locks_down_panel_power(unloading: Plan) -> None:
    locks = [at(unloading, Lower(lock)) for lock in SILL_LOCKS]
    assert max(locks) < at(unloading, Open("control-panel")) < at(unloading, ON) < first_move(unloading)


def test_unloading_the_doorway_bays_come_first(unloading: Plan) -> None:
    assert order(unloading)[:2] == ["u14R", "u14L"]


def test_unloading_the_sill_handle_is_held_for_every_unit_that_leaves(unloading: Plan) -> None:
    leaving = [move for move in moves(unloading) if move.through[-1] == "outside"]
    assert len(leaving) == 8
    assert all(move.hold["sill-handle"] == "down" for move in leaving)


def test_unloading_the_sill_handle_returns_by_itself(unloading: Plan) -> None:
    assert not [
        step for step in unloading.steps if isinstance(step, SetControl) and step.control == "sill-handle"
    ]
    along = [move for move in moves(unloading) if move.through[-1] != "outside"]
    assert all("sill-handle" not in move.hold for move in along)


def test_unloading_the_centreline_guide_goes_down_by_hand_before_a_unit_passes_it_outward(
    unloading: Plan,
) -> None:
    lowered = at(unloading, Lower("centre-guide"))
    assert last_move(unloading, "u14R") < lowered < first_move(unloading, "u14L")


@pytest.mark.parametrize("bay", LANE)
def test_unloading_locks_are_released_for_the_next_unit_only(unloading: Plan, bay: str) -> None:
    units = order(unloading)
    before = units[units.index(f"u{bay}") - 1]
    released = at(unloading, Lower(f"lock-{bay}"))
    assert last_move(unloading, before) < released < first_move(unloading, f"u{bay}")


@pytest.mark.parametrize("bay", LANE)
def test_unloading_the_powered_guides_are_overridden_without_their_switch(unloading: Plan, bay: str) -> None:
    side = {"L": "left", "R": "right"}[bay[-1]]
    along = moves_of(unloading, f"u{bay}")[0]
    assert along.through[-1] == f"14{bay[-1]}"
    assert along.hold == {f"{side}-lane-stick": "aft"}


def test_unloading_leaves_the_hold_as_loading_does(loading: Plan, unloading: Plan) -> None:
    def closing(made: Plan) -> list[object]:
        steps = section(made, SectionName.SECURE_AND_CLOSE)
        return [step for step in steps if step != Raise("centre-guide")]

    assert closing(unloading) == closing(loading)


# 3. One word changed in the YAML (common practice of the trade, no source)

SIDE_GUIDE = "between: [14L, 13L]\n    stops: [forward, aft]\n    override: [{}]"
CENTRE_GUIDE = "between: [14R, 14L]\n    stops: [in, out]\n    override: [{}]"


def _changed(words: str, before: str, after: str) -> Hold:
    return demo_with(FILE, words.format(before), words.format(after)).network.holds["TR-FWD"]


def test_a_side_guide_that_gives_way_forward_is_overridden_on_the_way_in_only(types: UnitTypes) -> None:
    changed = _changed(SIDE_GUIDE, "aft", "forward")
    loading = planned(changed, types, Operation.LOADING)
    unloading = planned(changed, types, Operation.UNLOADING)
    assert moves_of(loading, "u11L")[1].hold == {"left-lane-stick": "forward"}
    assert moves_of(unloading, "u11L")[0].hold == {"left-lane-stick": "aft", "left-guide-switch": "forward"}
    assert moves_of(loading, "u11R")[1].hold == {
        "right-lane-stick": "forward",
        "right-guide-switch": "forward",
    }


def test_a_centreline_guide_that_gives_way_outward_is_lowered_by_hand_for_loading_only(
    types: UnitTypes,
) -> None:
    changed = _changed(CENTRE_GUIDE, "in", "out")
    loading = planned(changed, types, Operation.LOADING)
    unloading = planned(changed, types, Operation.UNLOADING)
    assert at(loading, Lower("centre-guide")) < first_move(loading)
    assert Lower("centre-guide") not in unloading.steps


@pytest.mark.parametrize("words", [SIDE_GUIDE, CENTRE_GUIDE])
def test_the_old_plan_is_wrong_in_the_changed_hold(hold: Hold, types: UnitTypes, words: str) -> None:
    before, after = ("aft", "forward") if words is SIDE_GUIDE else ("in", "out")
    changed = _changed(words, before, after)
    for operation in Operation:
        old, new = planned(hold, types, operation), planned(changed, types, operation)
        assert old.steps != new.steps
    # what is stopped now, and was overridden before, is found
    stopped = planned(hold, types, Operation.UNLOADING if words is SIDE_GUIDE else Operation.LOADING)
    assert findings(changed, types, stopped)


def test_a_stop_that_no_longer_gives_way_and_that_nothing_lowers_leaves_no_plan(types: UnitTypes) -> None:
    text = demo().documents[FILE].text
    lowered = "    lowered-by: {left-guide-switch: forward}\n    powered: true\n"
    assert text.count(lowered) == 1
    hold = _loaded(text.replace(lowered, ""))
    message = "left side guide between 14L and 13L stops forward travel and nothing lowers it"
    reasons = refused(hold, types, Operation.LOADING)
    assert [reason.message for reason in reasons] == [f"13L, 12L, 11L cannot be reached: {message}"]
    assert reasons[0].place.route == ("restraints", "left-side-guide")
    planned(hold, types, Operation.UNLOADING)


# What follows from the claims for less than a full hold


def test_nothing_is_touched_that_need_not_be(hold: Hold, types: UnitTypes) -> None:
    made = attempt(hold, types, Operation.LOADING, ["11R"])
    assert isinstance(made, Plan)
    touched = {step.item for step in made.steps if isinstance(step, Raise | Lower)}
    assert touched == {*SILL_LOCKS, *DOORWAY_GUIDES, "lock-11R"}
    assert all(isinstance(step, Drive) for step in made.steps if isinstance(step, Drive | Push))


def test_what_holds_a_unit_on_its_far_side_goes_up_before_the_unit_comes(
    hold: Hold, types: UnitTypes
) -> None:
    """With 11L and 13R empty, nobody could reach lock 11L behind 12L, nor lock 13R behind 14R."""
    made = planned(hold, types, Operation.LOADING, ["12L", "14R"])
    steps = list(made.steps)
    for lock, unit in (("lock-11L", "u12L"), ("lock-13R", "u14R")):
        (raised,) = [
            index for index, step in enumerate(steps) if isinstance(step, Raise) and step.item == lock
        ]
        moves = [index for index, step in enumerate(steps) if isinstance(step, Drive) and step.unit == unit]
        assert raised < min(moves)
