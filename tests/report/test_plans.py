"""Plans and procedures: the step form, and what a terminal shows."""

import json
from dataclasses import replace

from procgen.diagnostics import Place
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
    Warn,
)
from procgen.model.words import Looker, Operation, RestraintState, SectionName
from procgen.report import no_plan_json, no_plan_text, plan_json, plan_text, plan_yaml, procedure_data
from procgen.results.plan import NoPlan, Plan, Reason
from procgen.results.state import State
from procgen.source import read_document

STEPS: tuple[Step, ...] = (
    Section(SectionName.PREPARE),
    Warn("warning", "wind-catches-door"),
    Open("aft-door"),
    SetControl("power-switch", "on"),
    Lower("sill-lock"),
    Remove("net-1"),
    CheckItems(("lock-41", "lock-42"), RestraintState.LOWERED),
    Section(SectionName.MOVE_UNITS),
    Check("unit-serviceable", "u41"),
    Present("u41"),
    Check("path-clear"),
    Drive("u41", {"stick": "in"}, ("outside", "44")),
    Drive("u41", {"stick": "forward", "guide-switch": "forward"}, ("44", "43", "42", "41")),
    Push("u42", 3, ("outside", "44"), {"sill-handle": "down"}),
    Push("u42", 1, ("44", "43")),
    Raise("lock-41"),
    Fit("net-1"),
    Section(SectionName.SECURE_AND_CLOSE),
    Close("aft-door"),
    CheckLatch("aft-door", Looker.CLOSER),
    CheckLatch("aft-door", Looker.SECOND),
    Report("loading-complete"),
    Note("Two people: one inside."),
)
UNITS = {"u41": PlannedUnit("u41", "AKH", "41"), "u42": PlannedUnit("u42", "AKH", "43")}
ABOARD = {"old": PlannedUnit("old", "PKC", "42")}
PROCEDURE = Procedure("two-units", "SR-AFT", Operation.LOADING, UNITS, STEPS, ABOARD, "Two units")
PLAN = Plan(
    "SR-AFT", Operation.LOADING, UNITS, State({}, {}, frozenset(), frozenset(), {}), STEPS, aboard=ABOARD
)

YAML = """\
procedure: two-units
title: Two units
hold: SR-AFT
operation: loading
units:
  u41: {type: AKH, bay: "41"}
  u42: {type: AKH, bay: "43"}
aboard:
  old: {type: PKC, bay: "42"}
steps:
  - section: prepare
  - warning: wind-catches-door
  - open: aft-door
  - set: {power-switch: "on"}
  - lower: sill-lock
  - remove: net-1
  - check: {lowered: [lock-41, lock-42]}
  - section: move-units
  - check: {condition: unit-serviceable, unit: u41}
  - present: u41
  - check: path-clear
  - drive: {unit: u41, hold: {stick: in}, through: [outside, "44"]}
  - drive: {unit: u41, hold: {stick: forward, guide-switch: forward}, through: ["44", "43", "42", "41"]}
  - push: {unit: u42, crew: 3, through: [outside, "44"], hold: {sill-handle: down}}
  - push: {unit: u42, crew: 1, through: ["44", "43"]}
  - raise: lock-41
  - fit: net-1
  - section: secure-and-close
  - close: aft-door
  - check: {latched: aft-door, by: closer}
  - check: {latched: aft-door, by: second-person}
  - report: loading-complete
  - note: "Two people: one inside."
"""

TEXT = """\
SR-AFT, loading: 2 units

  u41  AKH  position 41  moved
  u42  AKH  position 43  moved
  old  PKC  position 42  stays aboard

Prepare
       WARNING: wind catches door
    1. Open aft-door.
    2. Set power-switch to on.
    3. Lower sill-lock.
    4. Remove net-1.
    5. Check lowered: lock-41, lock-42.

Move units
    6. Check u41: unit serviceable.
    7. Bring u41 to the door.
    8. Check: path clear.
    9. Drive u41 from outside to 44: hold stick to in.
   10. Drive u41 from 44 through 43, 42 to 41: hold stick to forward and guide-switch to forward.
   11. Push u42 from outside to 44 with 3 people: hold sill-handle to down.
   12. Push u42 from 44 to 43 with 1 person.
   13. Raise lock-41.
   14. Fit net-1.

Secure and close
   15. Close aft-door.
   16. Check the latch of aft-door, by whoever closed it.
   17. Check the latch of aft-door, by a second person.
   18. Report: loading complete.
   19. Note: Two people: one inside.
"""


def test_yaml_has_one_step_on_a_line() -> None:
    assert plan_yaml(PROCEDURE) == YAML


def test_yaml_reads_back_as_the_step_form_without_a_finding() -> None:
    document, findings = read_document("x.yaml", plan_yaml(PROCEDURE))
    assert findings == ()
    assert document.data == procedure_data(PROCEDURE)


def test_json_holds_the_same_and_our_reader_takes_it_too() -> None:
    assert json.loads(plan_json(PROCEDURE)) == procedure_data(PROCEDURE)
    document, findings = read_document("x.json", plan_json(PROCEDURE))
    assert findings == ()
    assert document.data == procedure_data(PROCEDURE)


def test_plan_is_a_procedure_named_after_hold_and_operation() -> None:
    data = procedure_data(PLAN)
    assert data["procedure"] == "SR-AFT-loading"
    assert "title" not in data
    assert {key: data[key] for key in ("units", "aboard", "steps")} == {
        key: procedure_data(PROCEDURE)[key] for key in ("units", "aboard", "steps")
    }


def test_text_numbers_the_actions() -> None:
    assert plan_text(PLAN) == TEXT.rstrip()


def test_reasons_why_there_is_no_plan() -> None:
    document, _ = read_document("ONE.yaml", "hold: ONE\npositions:\n  '1': {held-by: [lock-1]}\n")
    no_plan = NoPlan(
        "ONE",
        Operation.UNLOADING,
        (
            Reason("lock-1 cannot be lowered: it is stuck", Place("ONE.yaml", ("positions", "1"))),
            Reason("no unit type fits position 1"),
        ),
    )
    assert no_plan_text(no_plan, {"ONE.yaml": document}, root="stations") == (
        "ONE, unloading: there is no plan.\n"
        "stations/ONE.yaml:3:8: lock-1 cannot be lowered: it is stuck\n"
        "  no unit type fits position 1"
    )
    data = json.loads(no_plan_json(no_plan, {"ONE.yaml": document}))
    assert (data["hold"], data["operation"]) == ("ONE", "unloading")
    assert [(r["message"], r["line"]) for r in data["reasons"]] == [
        ("lock-1 cannot be lowered: it is stuck", 3),
        ("no unit type fits position 1", None),
    ]


def test_a_hold_with_units_left_aboard_is_not_called_empty() -> None:
    unloading = replace(PROCEDURE, operation=Operation.UNLOADING, steps=(Check("hold-empty"),))
    assert "Check: hold empty but for 42." in plan_text(unloading)
    assert "Check: hold empty.\n" in plan_text(replace(unloading, aboard={})) + "\n"
