"""From every state of an operation there is a way to a safe, closed hold, or a reason why not."""

from __future__ import annotations

from dataclasses import replace

import pytest

from procgen.model.step import Check, Drive, Procedure, Push, Raise, SetControl
from procgen.model.unit import UnitType
from procgen.model.words import OUTSIDE, Operation, RestraintState
from procgen.plan import plan, recover
from procgen.results.plan import Aim, NoPlan, Plan, Recovery
from procgen.results.state import State
from procgen.simulate import simulate
from tests.plan.planning import UnitTypes, findings, planned, stuck
from tests.support import demo, demo_hold

LOADING, UNLOADING = Operation.LOADING, Operation.UNLOADING


@pytest.fixture(scope="module")
def types() -> UnitTypes:
    return demo().network.unit_types


def _after(name: str, made: Plan, types: UnitTypes) -> list[tuple[object, State]]:
    """Each step of a plan with the state that it leaves."""
    procedure = Procedure("plan", name, made.operation, made.units, made.steps)
    traced = simulate(demo_hold(name), types, procedure, made.start).steps
    return [(step, one.after) for step, one in zip(made.steps, traced, strict=True)]


def _recovered(name: str, types: UnitTypes, made: Plan, state: State) -> Recovery:
    hold = demo_hold(name)
    found = recover(hold, types, state, made.operation, made.units, made.aboard)
    assert isinstance(found, Recovery), found
    assert findings(hold, types, found.plan) == (), found.plan.steps
    return found


@pytest.mark.parametrize("operation", Operation)
@pytest.mark.parametrize("name", sorted(demo().network.holds))
def test_every_step_of_a_demo_plan_can_be_gone_on_from(
    name: str, operation: Operation, types: UnitTypes
) -> None:
    made = planned(demo_hold(name), types, operation)
    for _, state in _after(name, made, types):
        assert _recovered(name, types, made, state).aim is Aim.GO_ON


@pytest.mark.parametrize("name", sorted(demo().network.holds))
def test_when_the_power_fails_at_any_step_the_way_is_sound_or_every_aim_is_refused(
    name: str, types: UnitTypes
) -> None:
    hold = demo_hold(name)
    made = planned(hold, types, LOADING)
    for _, state in _after(name, made, types):
        found = recover(hold, types, replace(state, dead=frozenset({"power"})), LOADING, made.units)
        if isinstance(found, Recovery):
            assert findings(hold, types, found.plan) == (), found.plan.steps
        else:
            assert {reason.message.partition(":")[0] for reason in found.reasons} >= {
                "the loading cannot be finished",
                "what is on its way cannot get there",
                "what is on its way cannot go back",
                "what is on its way cannot be secured where it stands",
            }


def _in_lane(name: str, types: UnitTypes, operation: Operation) -> tuple[Plan, State]:
    """A plan, and the state after a drive that leaves a unit in the doorway on its way."""
    made = planned(demo_hold(name), types, operation)
    return made, next(
        state
        for step, state in _after(name, made, types)
        if isinstance(step, Drive) and step.through[-1] != OUTSIDE and state.units[step.unit] == "44"
    )


def test_without_power_a_unit_that_went_too_far_is_secured_where_it_stands(types: UnitTypes) -> None:
    # The hold forbids moving by hand. u43 ran on to 42, where the locks on both sides are up already.
    hold = demo_hold("SR-AFT")
    made = planned(hold, types, LOADING, ["41", "43"])
    state = next(
        state
        for step, state in _after("SR-AFT", made, types)
        if isinstance(step, Drive) and state.units.get("u43") == "43"
    )
    broken = replace(state, units={**state.units, "u43": "42"}, dead=frozenset({"power"}))
    found = _recovered("SR-AFT", types, made, broken)
    assert found.aim is Aim.SECURE
    assert [aim for aim, _ in found.refused] == [Aim.GO_ON, Aim.FINISH, Aim.TAKE_OUT]
    assert all(reasons for _, reasons in found.refused)
    assert not [step for step in found.plan.steps if isinstance(step, Drive | Push)]
    assert SetControl("power-switch", "off") in found.plan.steps[:3]
    raised = [step.item for step in found.plan.steps if isinstance(step, Raise)]
    assert raised == ["sill-lock"]


def test_what_cannot_get_to_its_bay_is_taken_out(types: UnitTypes) -> None:
    made, state = _in_lane("SR-AFT", types, LOADING)
    jammed = stuck("lock-43", RestraintState.RAISED)(state)
    found = _recovered("SR-AFT", types, made, jammed)
    assert found.aim is Aim.TAKE_OUT
    assert found.plan.operation is UNLOADING
    assert list(found.plan.units) == ["u41"]


def test_whoever_may_be_inside_comes_out_first(types: UnitTypes) -> None:
    made = planned(demo_hold("SR-AFT"), types, LOADING)
    states = [state for _, state in _after("SR-AFT", made, types) if state.inside]
    assert states
    for state in states:
        found = _recovered("SR-AFT", types, made, state)
        assert found.plan.steps[1] == Check("everyone-out")


def test_where_there_is_no_way_every_aim_says_why(types: UnitTypes) -> None:
    # No power, no leave to push, and whoever went in to raise lock 43 could not pass the unit in the doorway.
    hold = demo_hold("SR-AFT")
    made, state = _in_lane("SR-AFT", types, LOADING)
    found = recover(hold, types, replace(state, dead=frozenset({"power"})), LOADING, made.units)
    assert isinstance(found, NoPlan)
    assert [reason.message for reason in found.reasons] == [
        "the loading cannot be finished: 41 cannot be reached: side guide between 44 and 43 stops forward"
        " travel and it is lowered under power only: the power is dead",
        "the loading cannot be finished: u41 would have to come out first, but u41 cannot be brought out:"
        " the power is dead and the hold forbids moving by hand",
        "what is on its way cannot get there: 41 cannot be reached: side guide between 44 and 43 stops"
        " forward travel and it is lowered under power only: the power is dead",
        "what is on its way cannot get there: u41 would have to come out first, but u41 cannot be brought"
        " out: the power is dead and the hold forbids moving by hand",
        "what is on its way cannot go back: u41 cannot be brought out: the power is dead and the hold forbids"
        " moving by hand",
        "what is on its way cannot be secured where it stands: lock 43 cannot be raised: it is out of reach"
        " past u41",
    ]


def test_the_same_state_gives_the_same_way(types: UnitTypes) -> None:
    made, state = _in_lane("SR-AFT", types, LOADING)
    hold: dict[str, UnitType] = dict(types)
    assert recover(demo_hold("SR-AFT"), hold, state, LOADING, made.units) == recover(
        demo_hold("SR-AFT"), hold, state, LOADING, made.units
    )


def _jams(name: str, types: UnitTypes, operation: Operation, unit: str, bay: str) -> tuple[Plan, State]:
    """A demo plan, and the state in which a unit jams in a bay on its way."""
    made = planned(demo_hold(name), types, operation)
    for step, state in _after(name, made, types):
        if isinstance(step, Drive | Push) and step.unit == unit and bay in step.through:
            return made, replace(state, units={**state.units, unit: bay}, jammed=frozenset({unit}))
    raise AssertionError(f"{unit} never passes {bay}")


def test_a_unit_that_jams_in_a_position_is_secured_there_and_the_hold_closed(types: UnitTypes) -> None:
    made, state = _jams("TR-FWD", types, LOADING, "u11L", "14L")
    found = _recovered("TR-FWD", types, made, state)
    assert found.aim is Aim.SECURE
    assert found.plan.units["u11L"].bay == "14L"
    assert not [step for step in found.plan.steps if isinstance(step, Drive | Push)]
    said = {reason.message for _, reasons in found.refused for reason in reasons}
    assert said == {"u11L is jammed in 14L and cannot be moved"}


def test_where_the_far_lock_of_a_jammed_unit_is_out_of_reach_every_aim_says_why(types: UnitTypes) -> None:
    made, state = _jams("SR-AFT", types, LOADING, "u41", "42")
    found = recover(demo_hold("SR-AFT"), types, state, LOADING, made.units)
    assert isinstance(found, NoPlan)
    assert "lock 41 cannot be raised: it is out of reach past u41" in found.reasons[-1].message


def test_what_stands_behind_a_jammed_unit_waits(types: UnitTypes) -> None:
    """u42 jams in its own bay as the hold is unloaded: it is home, and u41 behind it stays."""
    made, state = _jams("SR-AFT", types, UNLOADING, "u42", "42")
    found = _recovered("SR-AFT", types, made, state)
    assert found.aim is Aim.FINISH
    assert not [step for step in found.plan.steps if isinstance(step, Drive | Push)]
    jammed = replace(made.start, jammed=frozenset({"u42"}))
    blocked = plan(
        demo_hold("SR-AFT"), types, jammed, UNLOADING, {"u41": made.units["u41"]}, {"u42": made.units["u42"]}
    )
    assert isinstance(blocked, NoPlan)
    assert "u42 stands in 42" in blocked.reasons[0].message


def test_no_plan_moves_a_jammed_unit_even_to_put_it_back(types: UnitTypes) -> None:
    hold = demo_hold("SR-AFT")
    made = planned(hold, types, UNLOADING)
    free = plan(
        hold,
        types,
        made.start,
        UNLOADING,
        {"u41": made.units["u41"]},
        {"u42": made.units["u42"], "u43": made.units["u43"], "u44": made.units["u44"]},
    )
    assert isinstance(free, Plan)
    assert "u44" in free.put_back
    jammed = replace(made.start, jammed=frozenset({"u44"}))
    refused = plan(hold, types, jammed, UNLOADING, {"u41": made.units["u41"]}, free.aboard)
    assert isinstance(refused, NoPlan)


def test_aims_better_than_the_best_asked_for_are_not_tried(types: UnitTypes) -> None:
    made, state = _jams("TR-FWD", types, LOADING, "u11L", "14L")
    found = recover(demo_hold("TR-FWD"), types, state, LOADING, made.units, best=Aim.SECURE)
    assert isinstance(found, Recovery)
    assert found.refused == ()
