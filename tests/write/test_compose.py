"""What compose puts into a plan, and where. The looking here is the test's own, by hand."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import pytest

from procgen.model.hazard import Frequency, HazardList, Match, RequiredCheck, Scope
from procgen.model.hold import Hold
from procgen.model.step import (
    Check,
    Close,
    Drive,
    Lower,
    Open,
    Present,
    Procedure,
    Push,
    Raise,
    Report,
    Section,
    SetControl,
    Step,
    Warn,
)
from procgen.model.words import Operation, SectionName
from procgen.write import compose
from tests.support import demo, demo_hold, load_texts, packaged
from tests.write.derived import HOLDS, generated, plan_for
from tests.write.plans import SINGLE_ROW_LOADING, SINGLE_ROW_UNLOADING, plan_of

HAZARDS = demo().network.hazards
CASES = [(name, operation) for name in HOLDS for operation in Operation]
MADE_BY_THE_PLAN = ("path-clear", "everyone-out")


def _is(match: Match, step: Step, hold: Hold, operation: Operation) -> bool:
    """Whether a step is meant, for the verbs that the packaged list uses of these two holds."""
    name, thing, where = "", "", ""
    match step:
        case Open(target) | Close(target):
            name = "open" if isinstance(step, Open) else "close"
            thing = "door" if target in hold.doors else "panel"
        case SetControl():
            name = "set"
        case Raise(item) | Lower(item):
            name = "raise" if isinstance(step, Raise) else "lower"
            thing = str(hold.restraints[item].kind)
            where = str(hold.restraints[item].reached_from)
        case Present():
            name = "present"
        case Drive():
            name = "drive"
        case Push():
            name = "push"
    return (
        name in match.verbs
        and (not match.kinds or thing in match.kinds)
        and (not match.reached_from or where in match.reached_from)
        and (not match.operations or operation in match.operations)
    )


def _indexes(procedure: Procedure, test: Callable[[Step], bool]) -> list[int]:
    return [index for index, step in enumerate(procedure.steps) if test(step)]


def _matching(procedure: Procedure, matches: Sequence[Match]) -> list[int]:
    hold = demo_hold(procedure.hold)
    return _indexes(procedure, lambda s: any(_is(m, s, hold, procedure.operation) for m in matches))


def _head(procedure: Procedure, index: int) -> int:
    """The head of the section that a step stands in."""
    return max(i for i in range(index + 1) if isinstance(procedure.steps[i], Section))


def _warned(procedure: Procedure, index: int) -> list[str]:
    """The hazards of the warnings that run on from `index`."""
    names: list[str] = []
    for step in procedure.steps[index:]:
        if not isinstance(step, Warn):
            break
        names.append(step.hazard)
    return names


@pytest.mark.parametrize(("name", "operation"), CASES)
def test_the_plan_is_kept_whole_and_in_order(name: str, operation: Operation) -> None:
    procedure, plan = generated(name, operation), plan_for(demo_hold(name), operation)
    added = (Warn, Report)
    required = {check.condition for hazard in HAZARDS.hazards.values() for check in hazard.checks}
    kept = [
        step
        for step in procedure.steps
        if not isinstance(step, added) and not (isinstance(step, Check) and step.condition in required)
    ]
    assert kept == [Section(SectionName.BEFORE_YOU_START), *plan.steps]
    assert (procedure.name, procedure.generated) == (f"{name}-{operation}", True)
    assert (procedure.units, procedure.aboard) == (plan.units, plan.aboard)


@pytest.mark.parametrize(("name", "operation"), CASES)
def test_every_warning_stands_where_its_scope_says(name: str, operation: Operation) -> None:
    procedure = generated(name, operation)
    expected = 0
    for hazard in HAZARDS.hazards.values():
        where = _matching(procedure, hazard.comes_with)
        if hazard.scope is Scope.PROCEDURE and where:
            assert hazard.name in _warned(procedure, 1)
            expected += 1
        elif hazard.scope is Scope.SECTION:
            heads = {_head(procedure, index) for index in where}
            for head in heads:
                assert hazard.name in _warned(procedure, head + 1)
            expected += len(heads)
        elif hazard.scope is Scope.STEP:
            for index in where:
                before = index - 1
                while (step := procedure.steps[before]) and isinstance(step, Warn):
                    if step.hazard == hazard.name:
                        break
                    before -= 1
                assert isinstance(step, Warn)
            expected += len(where)
    found = [step for step in procedure.steps if isinstance(step, Warn)]
    assert len(found) == expected  # and none anywhere else
    assert all(step.signal == HAZARDS.hazards[step.hazard].signal for step in found)


@pytest.mark.parametrize(("name", "operation"), CASES)
def test_every_check_is_made_in_time(name: str, operation: Operation) -> None:
    procedure = generated(name, operation)
    asked: set[tuple[str, str | None]] = set()
    for hazard in HAZARDS.hazards.values():
        for check in hazard.checks:
            before = _matching(procedure, [check.before])
            if check.frequency is Frequency.EACH_UNIT:
                for unit in procedure.units if before else ():
                    first = next(i for i in before if getattr(procedure.steps[i], "unit", "") == unit)
                    made = procedure.steps.index(Check(check.condition, unit))
                    assert made < first
                    asked.add((check.condition, unit))
                    between = procedure.steps[made:first]
                    assert all(isinstance(step, Check) for step in between)  # right before it
            elif before:
                made = procedure.steps.index(Check(check.condition))
                assert made < before[0]
                asked.add((check.condition, None))
                after = _matching(procedure, [check.after]) if check.after else []
                assert all(index < made for index in after)
    found = [step for step in procedure.steps if isinstance(step, Check)]
    own = [(s.condition, s.unit) for s in found if s.condition not in MADE_BY_THE_PLAN]
    assert sorted(own, key=str) == sorted(asked, key=str)  # each once, and no other


def test_the_places_of_checks() -> None:
    """Before the door what can be, the hold as soon as it is open, the locks as soon as the last is up."""
    steps = generated("SR-AFT", Operation.LOADING).steps
    conditions = [step.condition for step in steps if isinstance(step, Check)]
    assert conditions[:5] == [
        "engines-stopped",
        "hold-released",
        "wind-within-limit",
        "platform-in-place",
        "hold-inspected",
    ]
    at = steps.index(Check("platform-in-place"))
    assert steps[at - 1] == Open("aft-door")
    assert steps[at + 2] == Lower("sill-lock")
    locks = steps.index(Check("locks-verified"))
    assert steps[locks - 1] == Raise("sill-lock")
    assert steps[-2:] == (Report("damage-told"), Report("loading-complete"))


def test_the_hold_is_looked_through_at_the_head_of_the_last_section() -> None:
    steps = generated("SR-AFT", Operation.UNLOADING).steps
    at = steps.index(Check("hold-empty"))
    assert isinstance(steps[at - 1], Warn)
    assert steps[at - 2] == Section(SectionName.SECURE_AND_CLOSE)
    assert steps[-1] == Report("unloading-complete")


@pytest.mark.parametrize("name", HOLDS)
def test_warnings_stay_few_enough_to_be_read(name: str) -> None:
    for operation in Operation:
        found = [step for step in generated(name, operation).steps if isinstance(step, Warn)]
        assert len(found) <= 14


def test_composing_twice_yields_the_same() -> None:
    plan = plan_of(SINGLE_ROW_LOADING)
    hold = demo_hold("SR-AFT")
    assert compose(plan, hold, HAZARDS) == compose(plan, hold, HAZARDS)


def test_no_hazards_nothing_added() -> None:
    plan = plan_of(SINGLE_ROW_LOADING)
    steps = compose(plan, demo_hold("SR-AFT"), HazardList({}, {}, {})).steps
    assert steps == (Section(SectionName.BEFORE_YOU_START), *plan.steps)


def _list_with(hazard: str) -> HazardList:
    """A hazard list with one hazard and the packaged checks and reports."""
    tail = packaged()["hazards.yaml"].split("\nchecks:\n", 1)[1]
    loaded = load_texts({}, f"hazards:\n{hazard}\nchecks:\n{tail}")
    assert loaded.findings == ()
    return loaded.network.hazards


FREEING_LOCKS = """\
  test-hazard:
    title: Test
    signal: caution
    scope: step
    comes-with: [{verbs: [lower], kinds: [lock], reached-from: [inside]}]
    hazard: A hazard.
    consequence: Damage.
    avoid: Look out.
    checks: [{condition: unit-serviceable, before: {verbs: [drive]}, frequency: each-unit}]
    source: common practice of the trade, no source
"""


def test_each_unit_is_checked_at_the_head_of_its_steps_when_unloading() -> None:
    """The look at a unit comes before the hand that frees it, and the caution right before each step."""
    steps = compose(plan_of(SINGLE_ROW_UNLOADING), demo_hold("SR-AFT"), _list_with(FREEING_LOCKS)).steps
    at = steps.index(Lower("lock-43"))
    assert steps[at - 2 : at] == (Check("unit-serviceable", "u43"), Warn("caution", "test-hazard"))
    first = steps.index(Check("unit-serviceable", "u44"))
    assert steps[first - 1] == Section(SectionName.MOVE_UNITS)
    assert steps[first + 1] == Lower("inner-guide")  # reached from inside, but no lock


def test_a_check_knows_the_line_that_asks_for_it() -> None:
    steps = generated("SR-AFT", Operation.LOADING).steps
    made = steps[steps.index(Check("engines-stopped"))]
    assert made.place.route == ("hazards", "engines-running", "checks", 0)
    warned = next(step for step in steps if isinstance(step, Warn))
    assert warned.place.route == ("hazards", "engines-running")


def test_a_check_after_steps_that_never_come_stands_before_what_needs_it() -> None:
    required = RequiredCheck(
        "locks-verified", Match(frozenset({"close"}), frozenset({"door"})), Match(frozenset({"fit"}))
    )
    hazard = replace(HAZARDS.hazards["engines-running"], checks=(required,))
    changed = HazardList({hazard.name: hazard}, HAZARDS.checks, HAZARDS.reports)
    steps = compose(plan_of(SINGLE_ROW_LOADING), demo_hold("SR-AFT"), changed).steps
    at = steps.index(Check("locks-verified"))
    assert steps[at + 1] == Close("aft-door")
