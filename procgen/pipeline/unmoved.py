"""What a procedure has to do with an item, read off its trace; and how two procedures differ."""

from __future__ import annotations

from collections.abc import Sequence
from difflib import SequenceMatcher

from procgen.model.hold import Hold
from procgen.model.step import (
    CheckItems,
    Close,
    Drive,
    Fit,
    Lower,
    OutOfService,
    Push,
    Raise,
    Remove,
    Section,
    SetControl,
    Step,
    Stow,
)
from procgen.model.words import POWER, Failure, SectionName
from procgen.results.out_of_service import failed
from procgen.results.state import State, state_at_rest
from procgen.results.trace import Trace
from procgen.write.cycles import Cycle, cycles


def unmoved(hold: Hold, trace: Trace, one: OutOfService) -> bool:
    """Whether a clean simulation is sure to be the same with this item out of service.

    So it is with a restraint that no step moves, that no unit passes and that stands all the while as it has
    failed (looking at it finds it so, unless it is missing); with a control that no step works; with a drive
    or the power where nothing is driven.
    """
    steps = [traced.step for traced in trace.steps]
    item = one.item
    if one.failure is not Failure.DEAD:
        after = failed(hold, state_at_rest(hold), [one])
        stands = after.restraints[item]
        return (
            not after.dead
            and not any(
                item in _named(step)
                for step in steps
                if one.failure is Failure.MISSING or not isinstance(step, CheckItems)
            )
            and not any(item in traced.passed for traced in trace.steps)
            and all(
                _stands(state, item) is stands for each in trace.steps for state in (each.before, each.after)
            )
        )
    if item in hold.controls:
        return not any(item in _named(step) for step in steps)
    driven = any(isinstance(step, Drive) for step in steps)
    switch = hold.power.switch if hold.power is not None and item == POWER else ""
    return not driven and not any(switch in _named(step) for step in steps)


def _stands(state: State, item: str) -> object:
    return state.restraints.get(item)


def _named(step: Step) -> tuple[str, ...]:
    """The items and controls that a step names."""
    match step:
        case Raise(item=name) | Lower(item=name) | Fit(item=name) | Remove(item=name):
            return (name,)
        case SetControl(control=name) | Close(target=name):
            return (name,)
        case Drive() | Push():
            return tuple(step.hold)
        case CheckItems(items=names):
            return names
        case _:
            return ()


def share(steps: Sequence[Step], unit: str) -> tuple[Step, ...]:
    """The steps that one unit needs: those before the units move, its own, and those after."""
    found: list[Step] = []
    own = _cycles(steps)
    moving = {index for cycle in own for index in range(cycle.start, cycle.end)}
    mine = {index for cycle in own if cycle.unit == unit for index in range(cycle.start, cycle.end)}
    for index, step in enumerate(steps):
        if index in mine or index not in moving:
            found.append(step)
    return tuple(found)


def _cycles(steps: Sequence[Step]) -> tuple[Cycle, ...]:
    heads = [(index, step.name) for index, step in enumerate(steps) if isinstance(step, Section)]
    ends = [index for index, _ in heads[1:]] + [len(steps)]
    return tuple(
        cycle
        for (start, name), end in zip(heads, ends, strict=True)
        if name is SectionName.MOVE_UNITS
        for cycle in cycles(steps, start + 1, end)
    )


def differences(before: Sequence[Step], after: Sequence[Step]) -> tuple[tuple[Step, ...], tuple[Step, ...]]:
    """The steps that are left out and those that are put in; both empty only where all are the same."""
    known: list[Step] = []

    def number(step: Step) -> int:
        if step not in known:
            known.append(step)
        return known.index(step)

    matcher = SequenceMatcher(None, [number(s) for s in before], [number(s) for s in after], autojunk=False)
    left_out: list[Step] = []
    put_in: list[Step] = []
    for tag, a1, a2, b1, b2 in matcher.get_opcodes():
        if tag != "equal":
            left_out += before[a1:a2]
            put_in += after[b1:b2]
    return tuple(left_out), tuple(put_in)


def crew_of(steps: Sequence[Step], unit: str) -> int | None:
    """The most people that a unit's moves by hand take, among some steps; None where there are none."""
    crews = [step.crew for step in steps if isinstance(step, Push | Stow) and step.unit == unit]
    return max(crews, default=None)
