"""From a state in which something went wrong to a safe, closed hold.

The better an aim, the sooner it is tried: the operation is finished; else the units on their way are
brought to where they were going and the rest is left as it is; else they go back; else they are secured
where they stand; else, where it helps, everything else is taken out besides. Moves without power are
pushes, where the hold allows those. A unit that is jammed is not moved: what stands behind it waits.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import dropwhile

from procgen.model.hold import Hold
from procgen.model.step import PlannedUnit
from procgen.model.unit import UnitType
from procgen.model.words import OUTSIDE, Operation
from procgen.plan.goal import Task
from procgen.plan.planning import planned
from procgen.results.plan import Aim, NoPlan, Plan, Reason, Recovery
from procgen.results.state import State

Units = Mapping[str, PlannedUnit]

_WORDS = {
    Aim.GO_ON: "the {operation} cannot be finished",
    Aim.FINISH: "what is on its way cannot get there",
    Aim.TAKE_OUT: "what is on its way cannot go back",
    Aim.SECURE: "what is on its way cannot be secured where it stands",
    Aim.EMPTY: "what is on its way cannot be secured once all else is out",
}
_ORDER = list(Aim)


def recover(
    hold: Hold,
    unit_types: Mapping[str, UnitType],
    state: State,
    operation: Operation,
    units: Units,
    aboard: Units | None = None,
    best: Aim = Aim.GO_ON,
) -> Recovery | NoPlan:
    """Lead from any state of an operation to a safe, closed hold.

    `operation`, `units` and `aboard` are those of the procedure that was broken off, `state` is where it
    was, with what is out of service or jammed by now. The plan found is an ordinary one, for the operation
    and the units that it says itself. Aims better than `best` are not tried. There is no way: the reasons
    are those of every aim, each said to be so.
    """
    refused: list[tuple[Aim, tuple[Reason, ...]]] = []
    broken = Task(hold, unit_types, state, operation, units, aboard or {}, makes_safe=True)
    for task, aim in dropwhile(lambda tried: _ORDER.index(tried[1]) < _ORDER.index(best), _tasks(broken)):
        found = planned(task)
        if isinstance(found, Plan):
            return Recovery(found, aim, tuple(refused))
        refused.append((aim, found.reasons))
    return NoPlan(hold.name, operation, tuple(_headed(refused, operation)))


def _tasks(broken: Task) -> Iterator[tuple[Task, Aim]]:
    """What is tried, in this order."""
    where = broken.start.units
    loading = broken.operation is Operation.LOADING
    known = {**broken.aboard, **broken.units}
    inside = {name: unit for name, unit in known.items() if where.get(name, OUTSIDE) != OUTSIDE}
    on_way = {name: unit for name, unit in inside.items() if where[name] != unit.bay}
    at_home = {name: unit for name, unit in inside.items() if name not in on_way}
    yield replace(broken, brings_back=True), Aim.GO_ON
    home = replace(broken, units=inside, aboard={}, operation=Operation.LOADING)
    out = replace(broken, units=on_way, aboard=at_home, operation=Operation.UNLOADING)
    yield (home if loading or not on_way else out), Aim.FINISH
    if on_way:
        yield (out if loading else home), Aim.TAKE_OUT
        here = {name: replace(unit, bay=where[name]) for name, unit in on_way.items()}
        yield replace(home, units={**at_home, **here}), Aim.SECURE
        if at_home and broken.start.jammed:
            yield replace(out, units=at_home, aboard=here), Aim.EMPTY


def _headed(refused: list[tuple[Aim, tuple[Reason, ...]]], operation: Operation) -> Iterator[Reason]:
    for aim, reasons in refused:
        head = _WORDS[aim].format(operation=operation.value)
        for reason in reasons:
            yield Reason(f"{head}: {reason.message}", reason.place)
