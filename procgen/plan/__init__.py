"""Derive the steps that lead from a state of a hold to a goal, or say why there are none.

The planner has its own reading of the machine (docs/architecture.md): it shares no code with the
simulator, which checks every plan.
"""

from __future__ import annotations

from collections.abc import Mapping

from procgen.model.hold import Hold
from procgen.model.step import PlannedUnit
from procgen.model.unit import UnitType
from procgen.model.words import Operation
from procgen.plan.closing import hopeless, left_to_do, out_of_service, targets
from procgen.plan.draft import Draft, draft, standing
from procgen.plan.events import OFF, ON, SWITCH, cancel, hoist
from procgen.plan.fit import choose_units
from procgen.plan.goal import Task, loads, objections, others
from procgen.plan.load import Load, pinned
from procgen.plan.machine import Machine, machine
from procgen.plan.order import loading_order, unloading_order
from procgen.plan.route import Router, router
from procgen.plan.steps import write_steps
from procgen.plan.writer import Course
from procgen.results.plan import NoPlan, Plan, Reason
from procgen.results.state import State

__all__ = ["choose_units", "plan"]


def plan(
    hold: Hold,
    unit_types: Mapping[str, UnitType],
    start: State,
    operation: Operation,
    units: Mapping[str, PlannedUnit],
    aboard: Mapping[str, PlannedUnit] | None = None,
) -> Plan | NoPlan:
    """Lead from `start` to the goal: every one of `units` in its bay (loading) or outside (unloading).

    Units that `start` has in the hold and that are not to be moved stay where they are and stay secured;
    those of them in `aboard` are named in the plan. Everything ends closed. What `start` says is out of
    service is not used. The reasons of a `NoPlan` carry their places in the description.
    """
    task = Task(hold, unit_types, start, operation, units, aboard or {})
    reasons = objections(task)
    if reasons:
        return NoPlan(hold.name, operation, reasons)
    made = machine(hold, start)
    course = _course(task, made)
    if not isinstance(course, Course):
        return NoPlan(hold.name, operation, course)
    steps = write_steps(made, start, course)
    return Plan(hold.name, operation, units, start, steps, task.aboard)


def _course(task: Task, made: Machine) -> Course | tuple[Reason, ...]:
    """What has to be done, or the reasons why it cannot be."""
    moving, staying = loads(task), others(task)
    final = {**staying, **{load.name: load.goal for load in moving if load.goal in task.hold.bays}}
    wanted, contradictions = targets(made, final.values())
    reasons = (*contradictions, *out_of_service(made, wanted, task.start))
    if reasons:
        return reasons
    way = router(made)
    drafted = _moves(task, way, moving, staying)
    if not isinstance(drafted, Draft):
        return drafted
    reasons = hopeless(made, wanted, drafted.restraints)
    if reasons:
        return reasons
    holding = pinned(made, task.start.units.values())
    early, events = hoist(made, cancel(made, drafted.events), _stands(task), holding)
    return Course(early, events, tuple(left_to_do(made, wanted, drafted.restraints)))


def _moves(
    task: Task, way: Router, moving: tuple[Load, ...], staying: Mapping[str, str]
) -> Draft | tuple[Reason, ...]:
    by_operation = loading_order if task.operation is Operation.LOADING else unloading_order
    order = by_operation(way, moving, staying, standing(task.start))
    if order.reasons:
        return order.reasons
    drafted = draft(way, task.start, order.loads)
    return drafted if isinstance(drafted, Draft) else (drafted,)


def _stands(task: Task) -> Mapping[str, str]:
    """How everything that can be touched stands at the start."""
    power = task.hold.power
    on = power is not None and task.start.controls.get(power.switch) == power.on
    return {**standing(task.start), SWITCH: ON if on else OFF}
