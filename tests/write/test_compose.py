"""What compose puts into a plan, and where."""

from __future__ import annotations

from dataclasses import replace

import pytest

from procgen.lint import check_procedure
from procgen.model.hazard import HazardList, Match, RequiredCheck
from procgen.model.step import Check, CheckLatch, Close, Lower, Open, Raise, Report, Section, Warn
from procgen.model.words import Looker, Operation, SectionName
from procgen.write import compose
from tests.support import demo, demo_hold, load_texts, packaged
from tests.write.derived import HOLDS, generated, plan_for
from tests.write.looking import assert_checks_in_time, assert_warnings_in_place
from tests.write.plans import SINGLE_ROW_LOADING, SINGLE_ROW_UNLOADING, plan_of

HAZARDS = demo().network.hazards
CASES = [(name, operation) for name in HOLDS for operation in Operation]


@pytest.mark.parametrize(("name", "operation"), CASES)
def test_the_plan_is_kept_whole_and_in_order(name: str, operation: Operation) -> None:
    procedure, plan = generated(name, operation), plan_for(demo_hold(name), operation)
    added = (Warn, Report)
    required = {check.condition for hazard in HAZARDS.hazards.values() for check in hazard.checks}
    required -= {step.condition for step in plan.steps if isinstance(step, Check)}
    kept = [
        step
        for step in procedure.steps
        if not isinstance(step, added) and not (isinstance(step, Check) and step.condition in required)
    ]
    assert kept == [Section(SectionName.BEFORE_YOU_START), *plan.steps]
    assert (procedure.name, procedure.generated) == (f"{name}-{operation}", True)
    assert (procedure.units, procedure.aboard) == (plan.units, plan.aboard)


@pytest.mark.parametrize(("name", "operation"), CASES)
def test_everything_stands_in_its_place(name: str, operation: Operation) -> None:
    procedure, hold = generated(name, operation), demo_hold(name)
    assert_warnings_in_place(procedure, hold, HAZARDS)
    assert_checks_in_time(procedure, hold, HAZARDS)


def test_the_places_of_checks() -> None:
    """Before the door what can be, the hold as soon as it is open, the locks as soon as the last is up."""
    steps = generated("SR-AFT", Operation.LOADING).steps
    conditions = [step.condition for step in steps if isinstance(step, Check)]
    assert conditions[:6] == [
        "engines-stopped",
        "hold-released",
        "wind-within-limit",
        "door-way-clear",
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


NO_STOP_SAID = ["no-stop-instruction"]
"""What is said of powered moves where the hazard list is cut to one hazard."""

LATCHES = """\
  test-hazard:
    title: Test
    signal: warning
    scope: step
    comes-with: [{verbs: [check], kinds: [door]}]
    hazard: A hazard.
    consequence: Damage.
    avoid: Look out.
    checks: [{condition: hold-released, before: {verbs: [check], kinds: [door]}, frequency: each-step}]
    source: common practice of the trade, no source
"""


def test_a_hazard_can_come_with_the_looks_at_a_latch() -> None:
    hazards, hold = _list_with(LATCHES), demo_hold("SR-AFT")
    made = compose(plan_of(SINGLE_ROW_LOADING), hold, hazards)
    at = made.steps.index(CheckLatch("aft-door", Looker.CLOSER))
    before = (Check("hold-released"), Warn("warning", "test-hazard"))
    assert made.steps[at - 2 : at + 4] == (
        *before,
        CheckLatch("aft-door", Looker.CLOSER),
        *before,
        CheckLatch("aft-door", Looker.SECOND),
    )
    assert [finding.rule for finding in check_procedure(made, hold, hazards)] == NO_STOP_SAID
    unwarned = replace(made, steps=tuple(step for step in made.steps if not isinstance(step, Warn)))
    told = sorted(finding.rule for finding in check_procedure(unwarned, hold, hazards))
    assert told == [*NO_STOP_SAID, "warning-missing"]


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
