"""Plans written by hand in the step form, as a machine would yield them: no warnings, no named checks."""

from __future__ import annotations

from procgen.load import load_procedure
from procgen.model.step import Procedure
from procgen.model.words import Operation
from procgen.results.plan import Plan
from procgen.results.state import state_at_rest
from tests.support import demo, demo_hold, schemas

SINGLE_ROW_LOADING = """\
procedure: by-hand
hold: SR-AFT
operation: loading
units:
  u41: {type: AKH, bay: "41"}
  u43: {type: AKH, bay: "43"}
  u44: {type: AKH, bay: "44"}
steps:
  - section: prepare
  - open: aft-door
  - lower: sill-lock
  - open: control-panel
  - set: {power-switch: "on"}
  - check: {lowered: [lock-43, lock-42, lock-41]}
  - check: {raised: [side-guide]}
  - section: move-units
  - present: u41
  - check: path-clear
  - drive: {unit: u41, hold: {stick: in}, through: [outside, "44"]}
  - drive: {unit: u41, hold: {stick: forward, guide-switch: forward}, through: ["44", "43", "42", "41"]}
  - raise: lock-41
  - present: u43
  - check: path-clear
  - drive: {unit: u43, hold: {stick: in}, through: [outside, "44"]}
  - drive: {unit: u43, hold: {stick: forward, guide-switch: forward}, through: ["44", "43"]}
  - raise: lock-43
  - raise: lock-42
  - present: u44
  - check: path-clear
  - drive: {unit: u44, hold: {stick: in}, through: [outside, "44"]}
  - section: secure-and-close
  - check: everyone-out
  - raise: sill-lock
  - set: {power-switch: "off"}
  - close: control-panel
  - close: aft-door
  - check: {latched: aft-door, by: closer}
  - check: {latched: aft-door, by: second-person}
"""
"""Positions 41, 43 and 44 of the single-row hold."""

SINGLE_ROW_UNLOADING = """\
procedure: by-hand
hold: SR-AFT
operation: unloading
units:
  u44: {type: AKH, bay: "44"}
  u43: {type: AKH, bay: "43"}
steps:
  - section: prepare
  - open: aft-door
  - lower: sill-lock
  - open: control-panel
  - set: {power-switch: "on"}
  - section: move-units
  - lower: inner-guide
  - check: path-clear
  - drive: {unit: u44, hold: {stick: out, sill-handle: down}, through: ["44", outside]}
  - lower: lock-43
  - check: path-clear
  - drive: {unit: u43, hold: {stick: aft}, through: ["43", "44"]}
  - drive: {unit: u43, hold: {stick: out, sill-handle: down}, through: ["44", outside]}
  - section: secure-and-close
  - raise: inner-guide
  - check: everyone-out
  - raise: sill-lock
  - set: {power-switch: "off"}
  - close: control-panel
  - close: aft-door
  - check: {latched: aft-door, by: closer}
  - check: {latched: aft-door, by: second-person}
"""
"""Positions 44 and 43 of the single-row hold."""

TWIN_ROW_LOADING = """\
procedure: by-hand
hold: TR-FWD
operation: loading
units:
  u13L: {type: AKE, bay: 13L}
  AKE70021: {type: AKE, bay: 14L}
steps:
  - section: prepare
  - open: forward-door
  - lower: forward-sill-lock
  - lower: aft-sill-lock
  - open: control-panel
  - set: {power-switch: "on"}
  - raise: forward-doorway-guide
  - raise: aft-doorway-guide
  - check: {lowered: [lock-13L]}
  - section: move-units
  - present: u13L
  - check: path-clear
  - drive: {unit: u13L, hold: {door-stick: in}, through: [outside, 14R, 14L]}
  - drive: {unit: u13L, hold: {left-lane-stick: forward, left-guide-switch: forward}, through: [14L, 13L]}
  - raise: lock-12L
  - raise: lock-13L
  - present: AKE70021
  - check: path-clear
  - drive: {unit: AKE70021, hold: {door-stick: in}, through: [outside, 14R, 14L]}
  - section: secure-and-close
  - check: everyone-out
  - raise: forward-sill-lock
  - raise: aft-sill-lock
  - set: {power-switch: "off"}
  - close: control-panel
  - close: forward-door
  - check: {latched: forward-door, by: closer}
  - check: {latched: forward-door, by: second-person}
"""
"""Positions 13L and 14L of the twin-row hold; one unit has a name of its own."""


def written(text: str) -> Procedure:
    """A procedure from its text in the step form; it must be in order."""
    procedure, _, findings = load_procedure("by-hand.yaml", text, demo().network, schemas())
    assert procedure is not None, findings
    assert findings == ()
    return procedure


def plan_of(text: str) -> Plan:
    """The same steps as a plan."""
    procedure = written(text)
    aboard = {unit.name: unit.bay for unit in procedure.aboard.values()}
    if procedure.operation is Operation.UNLOADING:
        aboard |= {unit.name: unit.bay for unit in procedure.units.values()}
    start = state_at_rest(demo_hold(procedure.hold), aboard)
    return Plan(
        procedure.hold, procedure.operation, procedure.units, start, procedure.steps, procedure.aboard
    )
