"""Holds of every kind, drawn at random, with loads of mixed types: plans, through-loads, failures, recovery.

Planner and simulator share no code, so that each of these tests tries both.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from procgen.model.step import PlannedUnit, Procedure
from procgen.model.words import Operation, RestraintState
from procgen.plan import plan, recover
from procgen.plan.fit import misfit_at_position
from procgen.results.plan import NoPlan, Plan, Recovery
from procgen.results.state import State
from procgen.simulate import simulate
from tests.more_holds import KINDS, any_holds
from tests.plan.planning import findings, rest
from tests.strategies import GeneratedHold

EXAMPLES = 8
Units = Mapping[str, PlannedUnit]
SETTINGS = settings(
    max_examples=EXAMPLES,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)


def _load(hold: GeneratedHold, drawn: random.Random, some: float) -> tuple[Units, Units]:
    """Units of random types for random positions that share no floor; some of them stay aboard."""
    described = hold.hold
    units: dict[str, PlannedUnit] = {}
    aboard: dict[str, PlannedUnit] = {}
    taken: set[str] = set()
    positions = list(described.positions)
    drawn.shuffle(positions)
    for position in positions:
        fitting = [
            code
            for code, unit in hold.unit_types.items()
            if not misfit_at_position(described, position, unit)
        ]
        if not fitting or drawn.random() > some or described.overlapping(position) & taken:
            continue
        taken.add(position)
        group, prefix = (aboard, "s") if drawn.random() < 0.25 else (units, "u")
        group[prefix + position] = PlannedUnit(prefix + position, drawn.choice(fitting), position)
    return units, aboard


def _failures(hold: GeneratedHold, state: State, drawn: random.Random, count: int) -> Iterator[State]:
    """The state with one item out of service, some times over."""
    described = hold.hold
    items = [*described.drives, *described.controls, *described.restraints, "power"]
    for item in drawn.sample(items, min(count, len(items))):
        if item in described.restraints:
            stands = drawn.choice(list(RestraintState))
            yield replace(state, stuck={item: stands}, restraints={**state.restraints, item: stands})
        else:
            yield replace(state, dead=frozenset({item}))


def _is_sound(hold: GeneratedHold, made: Plan | NoPlan) -> bool:
    """Assert that a plan is sound, or that there is a reason; whether there is a plan."""
    if isinstance(made, NoPlan):
        assert made.reasons
        assert all(reason.message and reason.place.file for reason in made.reasons)
        return False
    assert findings(hold.hold, hold.unit_types, made) == (), (made.steps, hold.text)
    return True


def _states(hold: GeneratedHold, made: Plan) -> list[State]:
    """The states that a plan goes through, by the simulator."""
    procedure = Procedure("plan", hold.hold.name, made.operation, made.units, made.steps, made.aboard)
    return [one.after for one in simulate(hold.hold, hold.unit_types, procedure, made.start).steps]


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_of_hold_is_planned_soundly_or_refused_for_a_reason(kind: str) -> None:
    tally: Counter[str] = Counter()

    @SETTINGS
    @given(
        any_holds(kind), st.integers(0, 2**32), st.sampled_from([0.3, 0.7, 1.0]), st.sampled_from(Operation)
    )
    def trial(hold: GeneratedHold, seed: int, some: float, operation: Operation) -> None:
        drawn = random.Random(seed)
        units, aboard = _load(hold, drawn, some)
        start = rest(hold.hold, operation, units, aboard)
        made = plan(hold.hold, hold.unit_types, start, operation, units, aboard)
        assert made == plan(hold.hold, hold.unit_types, start, operation, units, aboard)
        tally["planned" if _is_sound(hold, made) else "refused"] += 1
        for state in _failures(hold, start, drawn, 3):
            _is_sound(hold, plan(hold.hold, hold.unit_types, state, operation, units, aboard))

    trial()
    # Holds drawn at random are often such that nothing can work them; a fifth at least can be worked.
    assert 4 * tally["planned"] > tally["refused"], tally


@pytest.mark.parametrize("kind", KINDS)
def test_from_any_state_of_a_plan_there_is_a_sound_way_to_a_closed_hold_or_a_reason(kind: str) -> None:
    tally: Counter[str] = Counter()

    @SETTINGS
    @given(any_holds(kind), st.integers(0, 2**32), st.sampled_from(Operation))
    def trial(hold: GeneratedHold, seed: int, operation: Operation) -> None:
        drawn = random.Random(seed)
        units, aboard = _load(hold, drawn, 0.6)
        start = rest(hold.hold, operation, units, aboard)
        made = plan(hold.hold, hold.unit_types, start, operation, units, aboard)
        if isinstance(made, NoPlan):
            return
        states = _states(hold, made)
        for whole in drawn.sample(states, min(3, len(states))):
            for state in (whole, *_failures(hold, whole, drawn, 1)):
                found = recover(hold.hold, hold.unit_types, state, operation, units, aboard)
                way = found.plan if isinstance(found, Recovery) else found
                is_found = _is_sound(hold, way)
                tally[f"{'whole' if state is whole else 'failed'} {is_found}"] += 1

    trial()
    assert tally["whole True"] > 10 * tally["whole False"], tally
