"""Moments of any hold, made without planner or simulator, for the tests of drawings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from procgen.model.hold import Hold
from procgen.model.step import (
    CheckItems,
    Drive,
    Open,
    PlannedUnit,
    Present,
    Raise,
    SetControl,
    Step,
)
from procgen.model.words import OUTSIDE, RestraintState
from procgen.results.state import state_at_rest
from procgen.results.trace import TracedStep


def units_of(hold: Hold, unit_type: str) -> dict[str, PlannedUnit]:
    """One unit for every bay."""
    return {f"u{bay}": PlannedUnit(f"u{bay}", unit_type, bay) for bay in hold.bays}


def traced(hold: Hold, step: Step, at: dict[str, str], passed: tuple[str, ...] = ()) -> TracedStep:
    """A step with everything open and the units where `at` says."""
    rest = state_at_rest(hold, {unit: bay for unit, bay in at.items() if bay != OUTSIDE})
    state = replace(rest, units=at, open_doors=frozenset(hold.doors), open_panels=frozenset(hold.panels))
    return TracedStep(step, state, state, (), passed)


def abreast(hold: Hold, *, last_first: bool = False) -> dict[str, str]:
    """A unit in as many positions as go together; of positions that share floor the first (or last) stays."""
    kept: dict[str, str] = {}
    for bay in reversed(list(hold.positions)) if last_first else list(hold.positions):
        if not hold.overlapping(bay) & set(kept.values()):
            kept[f"u{bay}"] = bay
    return kept


def moments(hold: Hold, *, last_first: bool = False) -> Iterator[TracedStep]:
    """Each movable item raised in an empty and in a full hold, every control, every move of a lane."""
    movable = [name for name, item in hold.restraints.items() if not item.fixed]
    full = abreast(hold, last_first=last_first)
    for name in movable:
        yield traced(hold, Raise(name), {})
        yield traced(hold, Raise(name), full)
    for door in (*hold.doors, *hold.panels):
        yield traced(hold, Open(door), {})
    for name, control in hold.controls.items():
        yield traced(hold, SetControl(name, control.positions[-1]), {})
    yield traced(hold, CheckItems(tuple(movable), RestraintState.LOWERED), {})
    yield traced(hold, CheckItems(tuple(movable), RestraintState.LOWERED), full)
    for lane in hold.lanes:
        for there in (lane.through, tuple(reversed(lane.through))):
            for length in range(2, len(there) + 1):
                way = there[:length]
                inner = next(bay for bay in reversed(way) if bay != OUTSIDE)
                unit = f"u{inner}"
                yield traced(
                    hold,
                    Drive(unit, {name: c.positions[-1] for name, c in list(hold.controls.items())[:2]}, way),
                    {unit: way[-1]},
                    tuple(movable[:2]),
                )
    bay = next(iter(hold.bays))
    yield traced(hold, Present(f"u{bay}"), {f"u{bay}": OUTSIDE})
