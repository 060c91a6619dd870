"""The run of a procedure: from the start state, step by step, to the end."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from procgen.diagnostics import Finding, Related
from procgen.model.hold import Hold
from procgen.model.step import (
    Check,
    CheckItems,
    CheckLatch,
    Close,
    Drive,
    Fit,
    Lower,
    Open,
    PlannedUnit,
    Present,
    Procedure,
    Push,
    Raise,
    Remove,
    Report,
    SetControl,
    Stow,
)
from procgen.model.unit import UnitType
from procgen.model.words import Operation
from procgen.results.out_of_service import failed, without
from procgen.results.state import State, state_at_rest
from procgen.results.trace import Trace, TracedStep
from procgen.simulate.checks import check_items, make_check
from procgen.simulate.ending import Ending
from procgen.simulate.hands import move_by_hand
from procgen.simulate.latches import look_at_latch, tell
from procgen.simulate.ledger import Ledger
from procgen.simulate.moves import move
from procgen.simulate.names import did_you_mean
from procgen.simulate.presenting import present
from procgen.simulate.rules import SEVERITY
from procgen.simulate.scene import Scene, scene_of
from procgen.simulate.stowing import stow
from procgen.simulate.things import open_or_close, set_control
from procgen.simulate.work import Work


def simulate(
    hold: Hold, unit_types: Mapping[str, UnitType], procedure: Procedure, start: State | None = None
) -> Trace:
    """Run a procedure on a hold and find everything that is wrong with it.

    Without a `start` the hold is closed and at rest, with the units aboard secured in their bays (those
    that an unloading procedure moves, and those it names as staying), what the procedure says is out of
    service has failed, and what it says is jammed cannot be moved. Simulation goes on after a finding from
    the state that the step would have led to. The same arguments give the same trace.
    """
    hold = without(hold, procedure.out_of_service)
    scene = scene_of(hold, unit_types, procedure)
    findings: list[Finding] = []
    if start is None:
        aboard = {**(procedure.units if _unloads(procedure) else {}), **procedure.aboard}
        findings += _wrong_at_start(scene, aboard)
        start = state_at_rest(hold, {name: u.bay for name, u in aboard.items() if u.bay in hold.bays})
        start = failed(hold, start, procedure.out_of_service)
        start = replace(start, jammed=frozenset(procedure.jammed))
    state, ledger = start, Ledger()
    traced: list[TracedStep] = []
    for number, step in enumerate(procedure.steps, start=1):
        work = Work(scene, number, step, state, ledger)
        _take(work)
        traced.append(TracedStep(step, state, work.state, tuple(work.findings), tuple(work.passed)))
        state, ledger = work.state, work.ledger
        findings += work.findings
    findings += Ending(scene, state, ledger).findings()
    return Trace(tuple(traced), state, tuple(findings))


def _take(work: Work) -> None:
    """Do what a step says. Section heads, warnings and notes change nothing."""
    match work.step:
        case Open() | Close() as step:
            open_or_close(work, step)
        case SetControl() as step:
            set_control(work, step)
        case Raise() | Lower() | Fit() | Remove() as step:
            move_by_hand(work, step)
        case Present() as step:
            present(work, step)
        case Drive() | Push() as step:
            move(work, step)
        case Stow() as step:
            stow(work, step)
        case Check() as step:
            make_check(work, step)
        case CheckItems() as step:
            check_items(work, step)
        case CheckLatch() as step:
            look_at_latch(work, step)
        case Report() as step:
            tell(work, step)
        case _:
            pass


def _unloads(procedure: Procedure) -> bool:
    return procedure.operation is Operation.UNLOADING


def _wrong_at_start(scene: Scene, aboard: Mapping[str, PlannedUnit]) -> list[Finding]:
    """Units aboard in bays that are not there, or where another unit stands."""
    findings: list[Finding] = []
    standing: dict[str, PlannedUnit] = {}
    for name, unit in aboard.items():
        if unit.bay not in scene.hold.bays:
            message = f"{name} stands in “{unit.bay}”, a bay which {scene.hold.name} does not have"
            suggestion = did_you_mean(unit.bay, tuple(scene.hold.bays), "bay")
            findings.append(_at_start("unknown-in-hold", message, suggestion, unit))
            continue
        other = next((standing[bay] for bay in standing if bay in scene.sharing[unit.bay]), None)
        if other is not None:
            message = f"{name} stands in {unit.bay} and {other.name} in {other.bay}, which share floor"
            findings.append(_at_start("bay-occupied", message, "give one of them another bay", unit, other))
        standing.setdefault(unit.bay, unit)
    return findings


def _at_start(
    rule: str, message: str, suggestion: str, unit: PlannedUnit, other: PlannedUnit | None = None
) -> Finding:
    return Finding(
        rule=rule,
        message=f"at the start {message}",
        place=unit.place,
        severity=SEVERITY[rule],
        suggestion=suggestion,
        related=(Related(other.place, other.name),) if other else (),
        subject=(("unit", unit.name), ("bay", unit.bay)),
    )
