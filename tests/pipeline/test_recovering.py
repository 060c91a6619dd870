"""Every step of every demonstration procedure and every mishap: a way that is proven, or whom to call."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, Phase, given, settings

from procgen import lint
from procgen.model.step import (
    Check,
    Drive,
    Present,
    Procedure,
    Push,
    Raise,
    Section,
    SetControl,
    Step,
    Stow,
    Warn,
)
from procgen.model.words import OUTSIDE, Operation
from procgen.pipeline.broken_off_checks import breaking_off
from procgen.pipeline.checking import derive
from procgen.pipeline.mishaps import on_its_way, way_in
from procgen.pipeline.recovering import CONDITIONS, recoveries
from procgen.plan import choose_units
from procgen.results.plan import Plan
from procgen.results.recovery import OUTCOMES, Answer, Case, Mishap, Outcome
from procgen.simulate import simulate
from procgen.write import compose
from tests.more_holds import any_holds
from tests.pipeline.recovered import cases_of, procedure_of, trace_of
from tests.plan.planning import attempt
from tests.strategies import GeneratedHold
from tests.support import demo, demo_hold

HOLDS = tuple(sorted(demo().network.holds))
DEMO = [(name, operation) for name in HOLDS for operation in Operation]


def _findings(hold: str, answer: Answer) -> list[str]:
    """What the simulator finds in the steps of an answer; at the end too, where the hold is closed by it."""
    trace = simulate(demo_hold(hold), demo().network.unit_types, answer.procedure, answer.start)
    found = trace.findings if answer.outcome in OUTCOMES.values() else ()
    steps = [finding for traced in trace.steps for finding in traced.findings]
    return [finding.message for finding in (*steps, *found)]


def _distinct(cases: tuple[Case, ...]) -> list[Answer]:
    return list({id(case.answer): case.answer for case in cases}.values())


@pytest.mark.parametrize(("hold", "operation"), DEMO)
def test_every_mishap_at_every_step_has_a_proven_way_or_says_whom_to_call(
    hold: str, operation: Operation
) -> None:
    cases = cases_of(hold, operation)
    tally: Counter[tuple[str, str]] = Counter()
    for answer in _distinct(cases):
        assert _findings(hold, answer) == []
        if answer.outcome in (Outcome.CALL, Outcome.LATER):
            assert answer.reasons
            assert all(reason.message and reason.place.file for reason in answer.reasons)
        else:
            assert answer.reasons == ()
    for case in cases:
        tally[str(case.mishap), str(case.answer.outcome)] += 1
    print(hold, operation, dict(tally))
    assert tally["person", "gone on"] > 5


@pytest.mark.parametrize(("hold", "operation"), DEMO)
def test_no_step_with_a_door_open_is_left_out(hold: str, operation: Operation) -> None:
    made, traced = procedure_of(hold, operation), trace_of(hold, operation).steps
    asked = {(case.index, case.mishap) for case in cases_of(hold, operation)}
    described = demo_hold(hold)
    for index, step in enumerate(made.steps):
        if isinstance(step, Section | Warn) or not traced[index].after.open_doors:
            continue
        assert (index, Mishap.PERSON) in asked
        assert described.power is None or (index, Mishap.POWER) in asked
        moves = isinstance(step, Drive | Push)
        if moves or on_its_way(made, traced[index].after):
            assert (index, Mishap.JAMMED) in asked
        if isinstance(step, Drive):
            assert (index, Mishap.DRIVE) in asked


@pytest.mark.parametrize(("hold", "operation"), DEMO)
def test_a_move_can_be_broken_off_in_every_bay_and_between_all_of_them(
    hold: str, operation: Operation
) -> None:
    made = procedure_of(hold, operation)
    places: dict[int, set[tuple[str, ...]]] = {}
    for case in cases_of(hold, operation):
        places.setdefault(case.index, set()).add(case.places)
    for index, step in enumerate(made.steps):
        if isinstance(step, Drive | Push):
            passed = {(place,) for place in step.through}
            gaps = set(zip(step.through, step.through[1:], strict=False))
            assert places[index] == passed | gaps


@pytest.mark.parametrize(("hold", "operation"), DEMO)
def test_everything_stops_and_the_power_goes_off_before_anything_else(
    hold: str, operation: Operation
) -> None:
    power = demo_hold(hold).power
    for answer in _distinct(cases_of(hold, operation)):
        actions: list[Step] = [s for s in answer.procedure.steps if not isinstance(s, Section | Warn)]
        assert actions[0] == Check(breaking_off(demo_hold(hold)).stopped)
        if power is not None and answer.start.controls[power.switch] != power.off:
            assert actions[1] == SetControl(power.switch, power.off)


@pytest.mark.parametrize(("hold", "operation"), DEMO)
def test_a_way_out_has_every_warning_and_check_that_its_steps_ask_for(
    hold: str, operation: Operation
) -> None:
    """A way out need not have all four parts of a procedure; nothing else may be lacking."""
    found = {
        finding.rule
        for answer in _distinct(cases_of(hold, operation))
        for finding in lint.check_procedure(answer.procedure, demo_hold(hold), demo().network.hazards)
    }
    assert found <= {"section-missing"}


@pytest.mark.parametrize(
    ("hold", "absent"),
    [
        (
            "BK-AFT",
            {"all-stopped", "entry-agreed", "loose-units-looked-for", "unit-guarded", "pushing-stopped"},
        ),
        ("MR-FWD", {"all-stopped", "entry-agreed", "loose-pieces-looked-for", "stowing-stopped"}),
        ("SR-AFT", {"pushing-stopped", "stowing-stopped", "entry-agreed-by-hand", "entry-agreed-with-loads"}),
    ],
)
def test_checks_and_warnings_go_by_what_the_hold_has(hold: str, absent: set[str]) -> None:
    steps = [s for o in Operation for answer in _distinct(cases_of(hold, o)) for s in answer.procedure.steps]
    checks = {step.condition for step in steps if isinstance(step, Check)}
    warned = {step.hazard for step in steps if isinstance(step, Warn)}
    assert checks & set(CONDITIONS)
    assert not checks & absent
    assert ("power-comes-back" in warned) == (demo_hold(hold).power is not None)


def _cases(hold: str, operation: Operation, mishap: Mishap, places: tuple[str, ...]) -> list[Case]:
    return [c for c in cases_of(hold, operation) if c.mishap is mishap and c.places == places]


def test_a_jammed_unit_is_not_moved_and_load_control_is_told_where_it_is() -> None:
    secured = [
        case
        for name, operation in DEMO
        for case in cases_of(name, operation)
        if case.answer.outcome is Outcome.SECURED
    ]
    assert len(secured) > 20
    for case in secured:
        steps = case.answer.procedure.steps
        assert Check("place-told") in steps
        if case.mishap is Mishap.JAMMED:
            assert not [s for s in steps if isinstance(s, Drive | Push) and s.unit == case.answer.unit]
            assert Check("jam-left-alone") in steps


def test_load_control_is_told_of_a_unit_that_came_out_and_is_not_put_back() -> None:
    network, hold = demo().network, demo_hold("SR-AFT")
    units, aboard = (choose_units(hold, network.unit_types, names) for names in (["41"], ["42", "43", "44"]))
    made = derive(network, hold, Operation.UNLOADING, units, aboard)
    assert isinstance(made, Procedure)
    trace = simulate(hold, network.unit_types, made)
    told = 0
    for index, traced in enumerate(trace.steps):
        out = any(traced.after.units[unit.name] != unit.bay for unit in aboard.values())
        if not traced.after.open_doors or not isinstance(traced.step, Present | Raise):
            continue
        cases = recoveries(hold, network.unit_types, network.hazards, made, trace, only=index)
        closed = [case.answer for case in cases if case.answer.outcome is Outcome.BROUGHT_HOME]
        for answer in closed:
            assert (Check("place-told") in answer.procedure.steps) is out
            told += out
    assert told > 3


def test_nobody_is_sent_in_past_a_unit_in_the_doorway() -> None:
    for name, operation in DEMO:
        hold = demo_hold(name)
        for case in cases_of(name, operation):
            if case.mishap is not Mishap.PERSON:
                continue
            free = way_in(hold, case.answer.start)
            assert (case.answer.outcome is Outcome.GONE_ON) is free
            if case.answer.until is not None:
                assert way_in(hold, trace_of(name, operation).steps[case.answer.until].after)


def test_whoever_goes_in_comes_out_before_the_power_is_on_again() -> None:
    (case, *_) = _cases("SR-AFT", Operation.LOADING, Mishap.PERSON, ("43",))
    steps = [s for s in case.answer.procedure.steps if not isinstance(s, Section | Warn)]
    said = [s.condition if isinstance(s, Check) else s for s in steps]
    assert said == [
        "all-stopped",
        SetControl("power-switch", "off"),
        "loose-units-looked-for",
        "entry-agreed",
        "entry-done",
        "everyone-out",
        SetControl("power-switch", "on"),
        "block-looked-over",
        "path-clear",
        Drive("u41", {"stick": "forward"}, ("43", "42", "41")),
    ]


def test_between_two_places_a_unit_goes_on_or_back_or_somebody_is_called() -> None:
    """Nothing is touched that stands under the unit: the way out begins with its move over that floor."""
    between = [
        (name, case)
        for name, operation in DEMO
        for case in cases_of(name, operation)
        if len(case.places) == 2 and case.mishap in (Mishap.POWER, Mishap.DRIVE)
    ]
    assert {case.answer.outcome for _, case in between} >= {Outcome.CALL, Outcome.BROUGHT_HOME}
    for name, case in between:
        if case.answer.outcome is Outcome.CALL:
            continue
        moves = [s for s in case.answer.procedure.steps if isinstance(s, Drive | Push | Stow)]
        assert moves[0].unit == case.answer.unit, name
        assert set(moves[0].through[:2]) == set(case.places)
        first = case.answer.procedure.steps.index(moves[0])
        raised = [s.item for s in case.answer.procedure.steps[:first] if isinstance(s, Raise)]
        items = demo_hold(name).restraints
        assert not [item for item in raised if set(items[item].between or ()) == set(case.places)]


def test_a_unit_that_jams_between_two_places_is_left_and_somebody_called() -> None:
    for name, operation in DEMO:
        for case in cases_of(name, operation):
            if case.mishap is Mishap.JAMMED and len(case.places) == 2:
                assert case.answer.outcome is Outcome.CALL
                assert case.answer.procedure.steps[-2:] != ()
                assert OUTSIDE in case.places or "nothing holds it" in case.answer.reasons[0].message


@given(generated=any_holds())
@settings(
    max_examples=5,
    deadline=None,
    database=None,
    suppress_health_check=list(HealthCheck),
    phases=(Phase.explicit, Phase.generate),
)
def test_any_hold_has_a_proven_way_out_of_every_mishap_or_says_whom_to_call(
    generated: GeneratedHold,
) -> None:
    """`recoveries` raises where a way that it found does not hold in simulation."""
    hold, types, hazards = generated.hold, generated.unit_types, demo().network.hazards
    for operation in Operation:
        made = attempt(hold, types, operation)
        if not isinstance(made, Plan):
            assert made.reasons
            continue
        procedure = compose(made, hold, hazards)
        trace = simulate(hold, types, procedure)
        assert trace.findings == ()
        cases = recoveries(hold, types, hazards, procedure, trace)
        assert {case.index for case in cases if case.mishap is Mishap.PERSON}
        for answer in _distinct(cases):
            again = simulate(hold, types, answer.procedure, answer.start)
            steps = [finding for traced in again.steps for finding in traced.findings]
            assert steps == []
            if answer.outcome in OUTCOMES.values():
                assert again.findings == ()
                assert not again.final.open_doors
                assert not again.final.inside
            else:
                assert answer.outcome is Outcome.GONE_ON or answer.reasons


def test_the_same_question_is_answered_alike() -> None:
    network, made = demo().network, procedure_of("SR-AFT", Operation.LOADING)
    trace = trace_of("SR-AFT", Operation.LOADING)
    again = recoveries(demo_hold("SR-AFT"), network.unit_types, network.hazards, made, replace(trace))
    assert again == cases_of("SR-AFT", Operation.LOADING)
