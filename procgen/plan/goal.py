"""What a plan is asked for: whether it makes sense in this hold, and what has to be moved for it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from procgen.model.hold import Hold
from procgen.model.step import PlannedUnit
from procgen.model.unit import UnitType
from procgen.model.words import OUTSIDE, Operation
from procgen.plan.fit import misfit_at_position
from procgen.plan.load import Load
from procgen.results.plan import Reason
from procgen.results.state import State


@dataclass(frozen=True, slots=True)
class Task:
    """What is asked: the operation, the units to move, those that stay, the unit types there are.

    `brings_back`: a unit that is to stay and is not where it belongs is brought there. `makes_safe`:
    something went wrong, so that it is made sure first that nobody is inside.
    """

    hold: Hold
    unit_types: Mapping[str, UnitType]
    start: State
    operation: Operation
    units: Mapping[str, PlannedUnit]
    aboard: Mapping[str, PlannedUnit]
    brings_back: bool = False
    makes_safe: bool = False


def objections(task: Task) -> tuple[Reason, ...]:
    """Why the task makes no sense, before anything is planned."""
    found = [*_unknown(task), *_misplaced(task)]
    if not found:
        found = [*_unfit(task), *_overlapping(task), *_jammed(task)]
    return tuple(dict.fromkeys(found))


def loads(task: Task) -> tuple[Load, ...]:
    """The units that are not yet where they should be, in the order in which they were named."""
    found = []
    for unit in task.units.values():
        goal = unit.bay if task.operation is Operation.LOADING else OUTSIDE
        found.append(_load(task, unit, goal))
    if task.brings_back:
        found += [_load(task, unit, unit.bay) for unit in task.aboard.values()]
    return tuple(load for load in found if load.start != load.goal)


def _load(task: Task, unit: PlannedUnit, goal: str) -> Load:
    start, doors = task.start, task.hold.doors
    door = start.at_door.get(unit.name) if len(doors) > 1 else None
    at = start.units.get(unit.name, OUTSIDE)
    return Load(unit, task.unit_types[unit.unit_type], at, goal, door if at == OUTSIDE else None)


def others(task: Task) -> Mapping[str, str]:
    """The units that stay where they are, with their bays: those aboard, those already at their goal."""
    moving = {load.name for load in loads(task)}
    return {
        name: bay
        for name, bay in task.start.units.items()
        if name not in moving and bay != OUTSIDE and bay in task.hold.bays
    }


def _unknown(task: Task) -> Iterator[Reason]:
    hold = task.hold
    for unit in (*task.units.values(), *task.aboard.values()):
        if unit.bay not in hold.bays:
            yield Reason(f"{hold.name} has no bay {unit.bay}", unit.place)
        elif unit.bay not in hold.positions:
            yield Reason(f"bay {unit.bay} is not a loading position", hold.bays[unit.bay].place)
        if unit.unit_type not in task.unit_types:
            name = f"unit type {unit.unit_type}" if unit.unit_type else "unit type"
            yield Reason(f"there is no {name} for {unit.name}", unit.place)
    for unit in task.units.values():
        if task.operation is Operation.UNLOADING and unit.name not in task.start.units:
            yield Reason(f"{unit.name} is not in the hold at the start", unit.place)
    known = {**task.units, **task.aboard}
    for name, bay in task.start.units.items():
        if bay not in hold.bays and bay != OUTSIDE:
            yield Reason(f"{name} stands in {bay}, which {hold.name} does not have", hold.place)
        elif bay not in hold.positions and bay != OUTSIDE and name not in known:
            where = f"{name} stands in {bay}, which is no loading position, and is not to be moved"
            yield Reason(where, hold.bays[bay].place)


def _misplaced(task: Task) -> Iterator[Reason]:
    for name, unit in task.aboard.items():
        if name in task.units:
            yield Reason(f"{name} is both moved and said to stay aboard", unit.place)
        elif task.start.units.get(name) != unit.bay and not task.brings_back:
            where = task.start.units.get(name, "not in the hold")
            yield Reason(f"{name} is said to stay in {unit.bay} but is {where} at the start", unit.place)


def _jammed(task: Task) -> Iterator[Reason]:
    """Units that cannot be moved, and are not where they should be."""
    for load in loads(task):
        if load.name not in task.start.jammed:
            continue
        where = "at the door" if load.start == OUTSIDE else f"in {load.start}"
        bay = task.hold.bays.get(load.start)
        place = bay.place if bay is not None else load.unit.place
        yield Reason(f"{load.name} is jammed {where} and cannot be moved", place)


def _unfit(task: Task) -> Iterator[Reason]:
    placed = list(task.aboard.values())
    if task.operation is Operation.LOADING:
        placed += task.units.values()
    for unit in placed:
        misfit = misfit_at_position(task.hold, unit.bay, task.unit_types[unit.unit_type])
        if not misfit:
            continue
        place = task.hold.positions[unit.bay].place
        fits = [
            code
            for code, kind in task.unit_types.items()
            if not misfit_at_position(task.hold, unit.bay, kind)
        ]
        if fits:
            yield Reason(f"{unit.unit_type} does not fit {unit.bay}: {misfit[0]}", place)
        else:
            yield Reason(f"no unit type fits {unit.bay}; {unit.unit_type}: {misfit[0]}", place)


def _overlapping(task: Task) -> Iterator[Reason]:
    """Two units for one bay, or for bays that share floor."""
    standing = {load.name: load.goal for load in loads(task) if load.goal != OUTSIDE}
    standing.update(others(task))
    named = list(standing.items())
    shared = {bay: task.hold.overlapping(bay) for bay in dict.fromkeys(standing.values())}
    for index, (name, bay) in enumerate(named):
        for other, its_bay in named[:index]:
            if bay == its_bay:
                yield Reason(f"{other} and {name} are both meant for {bay}", task.hold.bays[bay].place)
            elif bay in shared[its_bay]:
                message = f"{other} in {its_bay} and {name} in {bay} share floor"
                yield Reason(message, task.hold.bays[bay].place)
