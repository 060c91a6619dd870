"""Every plan simulates with no finding, or there is none and a reason says why.

Planner and simulator share no code, so that each of these tests tries both.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, event, given, settings
from hypothesis import strategies as st

from procgen.model.hold import Hold
from procgen.model.step import Lower, PlannedUnit, Procedure, Raise, SetControl
from procgen.model.words import Operation, RestraintState
from procgen.plan import choose_units, plan
from procgen.results.plan import NoPlan, Plan
from procgen.results.state import State
from procgen.simulate import simulate
from tests.plan.planning import UnitTypes, findings, planned, rest
from tests.strategies import GeneratedHold, holds
from tests.support import demo, demo_hold

EXAMPLES = 50
DEMO = ("SR-AFT", "TR-FWD")


def _is_sound(hold: Hold, types: UnitTypes, made: Plan | NoPlan) -> bool:
    """Assert that a plan is sound, or that there is a reason; whether there is a plan."""
    if isinstance(made, NoPlan):
        assert made.reasons
        assert all(reason.message and reason.place.file for reason in made.reasons)
        return False
    assert findings(hold, types, made) == (), made.steps
    return True


def _out_of_service(hold: Hold, start: State) -> Iterator[tuple[str, State]]:
    """Every single item out of service: each restraint either way, each drive and control, the power."""
    for item in hold.restraints:
        for state in RestraintState:
            yield (
                f"{item} {state}",
                replace(start, stuck={item: state}, restraints={**start.restraints, item: state}),
            )
    for item in (*hold.drives, *hold.controls, "power"):
        yield item, replace(start, dead=frozenset({item}))


@pytest.mark.parametrize("operation", Operation)
@pytest.mark.parametrize("name", DEMO)
def test_every_single_item_out_of_service_leaves_a_sound_plan_or_a_reason(
    name: str, operation: Operation
) -> None:
    hold, types = demo_hold(name), demo().network.unit_types
    units = choose_units(hold, types)
    tally: Counter[bool] = Counter()
    for _, start in _out_of_service(hold, rest(hold, operation, units)):
        tally[_is_sound(hold, types, plan(hold, types, start, operation, units))] += 1
    assert tally[True] >= 5
    assert tally[False] >= 5


@pytest.mark.parametrize("operation", Operation)
@pytest.mark.parametrize("name", DEMO)
def test_from_every_step_of_a_demo_plan_there_is_a_sound_way_on(name: str, operation: Operation) -> None:
    hold, types = demo_hold(name), demo().network.unit_types
    made = planned(hold, types, operation)
    for traced in _states(hold, types, made):
        onward = plan(hold, types, traced, operation, made.units)
        assert isinstance(onward, Plan), onward
        assert findings(hold, types, onward) == (), onward.steps


def _states(hold: Hold, types: UnitTypes, made: Plan) -> Iterator[State]:
    """The states that a plan goes through, by the simulator."""
    procedure = Procedure("plan", hold.name, made.operation, made.units, made.steps)
    for traced in simulate(hold, types, procedure, made.start).steps:
        yield traced.after


@pytest.mark.parametrize("operation", Operation)
@pytest.mark.parametrize("name", DEMO)
def test_the_same_question_has_the_same_answer(name: str, operation: Operation) -> None:
    hold, types = demo_hold(name), demo().network.unit_types
    assert planned(hold, types, operation) == planned(hold, types, operation)
    backwards = list(hold.positions)[::-1]
    assert planned(hold, types, operation, backwards).steps == planned(hold, types, operation).steps


@pytest.mark.parametrize("operation", Operation)
@pytest.mark.parametrize("name", DEMO)
def test_every_hand_action_of_a_demo_plan_is_needed(name: str, operation: Operation) -> None:
    """The check that the other tests rely on can fail: leave one out and the simulator objects."""
    hold, types = demo_hold(name), demo().network.unit_types
    made = planned(hold, types, operation)
    acted = [index for index, step in enumerate(made.steps) if isinstance(step, Raise | Lower | SetControl)]
    assert len(acted) >= 7
    for index in acted:
        without = replace(made, steps=made.steps[:index] + made.steps[index + 1 :])
        assert findings(hold, types, without), made.steps[index]


# Generated holds


def _units(
    hold: GeneratedHold, drawn: random.Random, some: float
) -> tuple[Mapping[str, PlannedUnit], Mapping[str, PlannedUnit]]:
    """Units for a random choice of positions, and others that stay aboard."""
    positions = list(hold.hold.positions)
    moved = [position for position in positions if drawn.random() < some] or positions[-1:]
    stay = [position for position in positions if position not in moved and drawn.random() < 0.15]
    staying = choose_units(hold.hold, hold.unit_types, stay).values()
    return choose_units(hold.hold, hold.unit_types, moved), {
        f"stays-{unit.bay}": replace(unit, name=f"stays-{unit.bay}") for unit in staying
    }


SETTINGS = settings(
    max_examples=EXAMPLES,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)


def test_generated_holds_are_planned_soundly_or_refused_for_a_reason() -> None:
    tally: Counter[tuple[Operation, bool]] = Counter()

    @SETTINGS
    @given(holds(), st.integers(0, 2**32), st.sampled_from([0.3, 0.7, 1.0]))
    def trial(hold: GeneratedHold, seed: int, some: float) -> None:
        units, aboard = _units(hold, random.Random(seed), some)
        for operation in Operation:
            start = rest(hold.hold, operation, units, aboard)
            made = plan(hold.hold, hold.unit_types, start, operation, units, aboard)
            assert made == plan(hold.hold, hold.unit_types, start, operation, units, aboard)
            has_plan = _is_sound(hold.hold, hold.unit_types, made)
            event(f"{operation.value}: {'planned' if has_plan else 'refused'}")
            tally[operation, has_plan] += 1

    trial()
    for operation in Operation:
        # Holds drawn at random are often such that nothing can work them; a third at least can be worked.
        assert 2 * tally[operation, True] > tally[operation, False], tally


def test_generated_holds_with_an_item_out_of_service_or_a_plan_broken_off() -> None:
    tally: Counter[bool] = Counter()

    @SETTINGS
    @given(holds(), st.sampled_from(Operation), st.integers(0, 2**32))
    def trial(hold: GeneratedHold, operation: Operation, seed: int) -> None:
        drawn = random.Random(seed)
        units, _ = _units(hold, drawn, 0.4)
        start = rest(hold.hold, operation, units)
        whole = plan(hold.hold, hold.unit_types, start, operation, units)
        starts = _some_out_of_service(hold.hold, start, drawn) + _broken_off(hold, whole, drawn)
        for changed in starts:
            made = plan(hold.hold, hold.unit_types, changed, operation, units)
            tally[_is_sound(hold.hold, hold.unit_types, made)] += 1

    trial()
    assert tally[True] > EXAMPLES, tally


def _some_out_of_service(hold: Hold, start: State, drawn: random.Random) -> list[State]:
    found = [change for _, change in _out_of_service(hold, start)]
    return drawn.sample(found, min(4, len(found)))


def _broken_off(hold: GeneratedHold, made: Plan | NoPlan, drawn: random.Random) -> list[State]:
    """The state after some step of a plan, where there is one."""
    if isinstance(made, NoPlan):
        return []
    return [drawn.choice(list(_states(hold.hold, hold.unit_types, made)))]
