"""Laws: whatever a procedure says, it is simulated to its end, the same way each time."""

from __future__ import annotations

from copy import deepcopy
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.model.hold import Hold
from procgen.model.step import (
    Check,
    CheckItems,
    CheckLatch,
    Close,
    Drive,
    Fit,
    Lower,
    Note,
    Open,
    PlannedUnit,
    Present,
    Procedure,
    Push,
    Raise,
    Remove,
    Report,
    Section,
    SetControl,
    Step,
    Stow,
    Warn,
)
from procgen.model.words import OUTSIDE, Looker, Operation, RestraintState, SectionName
from procgen.results.state import State, state_at_rest
from procgen.simulate import RULES, simulate
from tests.simulate.bench import Bench, bench
from tests.simulate.kinds import MIX_IN, MIX_OUT, SECT_IN, SECT_OUT
from tests.simulate.procedures import ROW_IN, ROW_OUT, TWIN_IN, TWIN_OUT, YARD_IN

TEXTS = (ROW_IN, ROW_OUT, TWIN_IN, TWIN_OUT, YARD_IN, SECT_IN, SECT_OUT, MIX_IN, MIX_OUT)
RUNS = [bench(text) for text in TEXTS]
UNITS = ("u1", "u2", "u3", "stranger")


def names(*known: str) -> st.SearchStrategy[str]:
    """Mostly known names, some unknown."""
    return (st.sampled_from(known) if known else st.nothing()) | st.sampled_from(
        ("", "nobody", "42x", "lock")
    )


def controls(hold: Hold) -> st.SearchStrategy[tuple[str, str]]:
    known = [(name, at) for name, one in hold.controls.items() for at in one.positions]
    some = st.sampled_from(known) if known else st.nothing()
    return some | st.tuples(names(*hold.controls), names("on", "in"))


def steps(hold: Hold) -> st.SearchStrategy[Step]:
    items = names(*hold.restraints, *hold.panels, *hold.controls)
    doors = names(*hold.doors, *hold.panels, *hold.restraints)
    through = st.lists(names(OUTSIDE, *hold.bays), max_size=5).map(tuple)
    lanes = [lane.through[:end] for lane in hold.lanes for end in range(2, len(lane.through) + 1)]
    ways = st.sampled_from([*lanes, *(way[::-1] for way in lanes)]) | through
    held = st.lists(controls(hold), max_size=3).map(dict)
    units = names(*UNITS)
    state = st.sampled_from(RestraintState)
    return st.one_of(
        st.builds(Section, st.sampled_from(SectionName)),
        st.builds(Warn, st.just("warning"), st.text(max_size=5)),
        st.builds(Open, doors),
        st.builds(Close, doors),
        controls(hold).map(lambda pair: SetControl(*pair)),
        st.builds(Raise, items),
        st.builds(Lower, items),
        st.builds(Fit, items),
        st.builds(Remove, items),
        st.builds(Present, units, st.none() | names(*hold.doors)),
        st.builds(Drive, units, held, ways),
        st.builds(Push, units, st.integers(-1, 5), ways, held),
        st.builds(Stow, units, st.integers(-1, 3), ways),
        st.builds(Check, names("path-clear", "everyone-out"), st.none() | units),
        st.builds(CheckItems, st.lists(items, max_size=3).map(tuple), state),
        st.builds(CheckLatch, doors, st.sampled_from(Looker)),
        st.builds(Report, st.text(max_size=5)),
        st.builds(Note, st.text(max_size=5)),
    )


@st.composite
def cases(draw: st.DrawFn) -> tuple[int, Procedure, State | None]:
    """The index of a hold, a procedure of random steps, now and then a start with things out of service."""
    index = draw(st.integers(0, len(RUNS) - 1))
    run = RUNS[index]
    hold = run.hold
    bays = names(*hold.bays)
    kinds = names(*run.loaded.network.unit_types)
    planned = {name: PlannedUnit(name, draw(kinds), draw(bays)) for name in UNITS[:3]}
    stay = draw(st.integers(0, 1))
    procedure = Procedure(
        name="random",
        hold=hold.name,
        operation=draw(st.sampled_from(Operation)),
        units={name: unit for name, unit in planned.items() if name != "u3" or not stay},
        aboard={"u3": planned["u3"]} if stay else {},
        steps=tuple(draw(st.lists(steps(hold), max_size=25))),
    )
    if draw(st.booleans()):
        return index, procedure, None
    start = state_at_rest(hold, {"u1": draw(st.sampled_from(list(hold.bays)))})
    stuck = draw(
        st.dictionaries(st.sampled_from(list(hold.restraints)), st.sampled_from(RestraintState), max_size=2)
    )
    dead = draw(st.frozensets(st.sampled_from([*hold.drives, *hold.controls, "power"]), max_size=2))
    return index, procedure, replace(start, stuck=stuck, dead=dead)


@settings(max_examples=80, deadline=None)
@given(cases())
def test_any_steps_are_simulated_to_the_end_the_same_way_each_time(
    case: tuple[int, Procedure, State | None],
) -> None:
    run, procedure, start = RUNS[case[0]], *case[1:]
    types = run.loaded.network.unit_types
    kept = deepcopy((procedure, start))
    trace = simulate(run.hold, types, procedure, start)
    assert simulate(run.hold, types, procedure, start) == trace
    assert (procedure, start) == kept
    assert [traced.step for traced in trace.steps] == list(procedure.steps)
    known = {rule.name: rule.severity for rule in RULES}
    for finding in trace.findings:
        assert known[finding.rule] is finding.severity
        assert finding.message
        assert finding.suggestion


@settings(max_examples=50, deadline=None)
@given(cases())
def test_each_step_starts_from_the_state_that_the_one_before_left(
    case: tuple[int, Procedure, State | None],
) -> None:
    run, procedure, start = RUNS[case[0]], *case[1:]
    trace = simulate(run.hold, run.loaded.network.unit_types, procedure, start)
    befores = [*(traced.before for traced in trace.steps), trace.final]
    for traced, after in zip(trace.steps, befores[1:], strict=True):
        assert traced.after == after
        for name, stuck in traced.after.stuck.items():
            assert traced.after.restraints[name] == traced.before.restraints[name], f"{name} is stuck {stuck}"
    in_steps = tuple(finding for traced in trace.steps for finding in traced.findings)
    at_start = len([f for f in trace.findings if f.message.startswith("at the start ")])
    assert trace.findings[at_start : at_start + len(in_steps)] == in_steps


@settings(max_examples=40, deadline=None)
@given(cases())
def test_fixed_items_never_move_and_items_without_a_hand_stay_up(
    case: tuple[int, Procedure, State | None],
) -> None:
    run, procedure, start = RUNS[case[0]], *case[1:]
    for traced in simulate(run.hold, run.loaded.network.unit_types, procedure, start).steps:
        for name, item in run.hold.restraints.items():
            if item.fixed or (not item.by_hand and item.returns_by_spring):
                assert traced.after.restraints[name] is traced.before.restraints[name]


@pytest.mark.parametrize("run", RUNS, ids=lambda run: f"{run.hold.name} {run.procedure.operation}")
def test_a_clean_procedure_stays_clean_with_a_note_anywhere(run: Bench) -> None:
    """Added notes, warnings and heads change nothing."""
    end = run.run().final
    for index in range(len(run.procedure.steps) + 1):
        steps = (*run.procedure.steps[:index], Note("Talk to one another."), *run.procedure.steps[index:])
        trace = simulate(run.hold, run.loaded.network.unit_types, replace(run.procedure, steps=steps))
        assert (trace.findings, trace.final) == ((), end)
