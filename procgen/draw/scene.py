"""What one step shows: the state, what moves, what is worked or looked at, who stands where."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from procgen.model.hold import Hold
from procgen.model.step import (
    CheckItems,
    CheckLatch,
    Close,
    Drive,
    Fit,
    Lower,
    Open,
    PlannedUnit,
    Present,
    Push,
    Raise,
    Remove,
    SetControl,
    Step,
    Stow,
)
from procgen.model.words import OUTSIDE, RestraintState, Stand
from procgen.results.state import State
from procgen.results.trace import TracedStep


@dataclass(frozen=True, slots=True)
class Scene:
    """One moment to draw.

    `moving` is a unit and `way` the places it passes, first to last. `touched` names restraints, doors,
    panels and controls worked or looked at; `passed` restraints pushed or held down on the way; `held`
    controls held meanwhile and their position. `at_sill` names the units to show on the loader platform.
    `stand` is where the person stands who works the item `stand_at`; `nobody` that the hold is empty of
    people; `pushed` that people move the unit by hand, and are inside for it.
    """

    state: State
    units: Mapping[str, PlannedUnit]
    moving: str | None = None
    way: tuple[str, ...] = ()
    touched: tuple[str, ...] = ()
    passed: tuple[str, ...] = ()
    held: Mapping[str, str] = field(default_factory=dict)
    at_sill: tuple[str, ...] = ()
    stand: Stand | None = None
    stand_at: str | None = None
    nobody: bool = False
    pushed: bool = False

    def symbol(self, hold: Hold, restraint: str) -> str:
        """The state of a restraint as its symbol shows it."""
        item = hold.restraints[restraint]
        if restraint in self.state.stuck:
            return "dead"
        if item.fixed:
            return "fixed"
        if restraint in self.passed:
            by_control = any(self.held.get(c) == position for c, position in item.lowered_by.items())
            return "held" if by_control else "pushed"
        return "up" if self.state.restraints.get(restraint) is RestraintState.RAISED else "down"


def scene_of(hold: Hold, traced: TracedStep, units: Mapping[str, PlannedUnit]) -> Scene:
    """The moment after a step; of a moving step, the move itself."""
    step = traced.step
    moving = step.unit if isinstance(step, Drive | Push | Stow) and len(step.through) > 1 else None
    way = step.through if isinstance(step, Drive | Push | Stow) and moving is not None else ()
    held = dict(step.hold) if isinstance(step, Drive | Push) else {}
    touched = (*_worked(step), *held)
    stand, stand_at = _standing(hold, step, touched)
    if isinstance(step, Stow):
        stand = Stand.INSIDE
    is_pulled = isinstance(step, Push) and step.gear is not None
    return Scene(
        state=traced.after,
        units=units,
        moving=moving,
        way=way,
        touched=touched,
        passed=traced.passed,
        held=held,
        at_sill=_at_sill(traced, units),
        stand=stand,
        stand_at=stand_at,
        nobody=moving is not None and (isinstance(step, Drive) or is_pulled),
        pushed=moving is not None and isinstance(step, Push) and not is_pulled,
    )


def _worked(step: Step) -> tuple[str, ...]:
    if isinstance(step, Raise | Lower | Fit | Remove):
        return (step.item,)
    if isinstance(step, Open | Close):
        return (step.target,)
    if isinstance(step, SetControl):
        return (step.control,)
    if isinstance(step, CheckItems):
        return step.items
    if isinstance(step, CheckLatch):
        return (step.door,)
    return ()


def _standing(hold: Hold, step: Step, touched: tuple[str, ...]) -> tuple[Stand | None, str | None]:
    if isinstance(step, CheckItems) or not touched:
        return None, None
    first = touched[0]
    if first in hold.restraints:
        return hold.restraints[first].reached_from, first
    if first in hold.controls:
        return hold.controls[first].at, first
    if first in hold.panels:
        return hold.panels[first].at, first
    return (Stand.OUTSIDE, first) if first in hold.doors else (None, None)


def _at_sill(traced: TracedStep, units: Mapping[str, PlannedUnit]) -> tuple[str, ...]:
    """The unit that this step is about, where it is outside; units that left before are out of the way."""
    step = traced.step
    if isinstance(step, Present | Drive | Push | Stow):
        return (step.unit,) if traced.after.units.get(step.unit) == OUTSIDE else ()
    waiting = [name for name, bay in traced.after.units.items() if bay == OUTSIDE and name in units]
    return tuple(waiting) if len(waiting) == 1 else ()
