"""What stands at the head of a cycle: its title, and the one line a loader needs to know before it."""

from __future__ import annotations

from collections.abc import Sequence

from procgen.model.hold import Hold
from procgen.model.step import Drive, Fit, Lower, PlannedUnit, Procedure, Push, Raise, Remove, Step, Stow
from procgen.model.words import OUTSIDE, Operation, RestraintState
from procgen.results.limits import LimitTable
from procgen.write import phrases, words
from procgen.write.standing import Standing


def planned_unit(procedure: Procedure, unit: str) -> PlannedUnit | None:
    """The unit as the procedure declares it, moved or staying aboard."""
    return procedure.units.get(unit) or procedure.aboard.get(unit)


def comes_out(procedure: Procedure, steps: Sequence[Step]) -> bool:
    """Whether the last move of a cycle ends outside; what no move tells, the operation does."""
    for step in reversed(steps):
        if isinstance(step, (Drive, Push, Stow)) and step.through:
            return step.through[-1] == OUTSIDE
    return procedure.operation is Operation.UNLOADING


def title_phrase(procedure: Procedure, unit: str, steps: Sequence[Step]) -> str:
    """The title of a cycle with a field for the bay.

    A unit that stays aboard, or that goes the other way than the operation, only makes way for others.
    """
    out = comes_out(procedure, steps)
    direction = Operation.UNLOADING if out else Operation.LOADING
    if direction is procedure.operation and unit not in procedure.aboard:
        return phrases.CYCLE[direction]
    return phrases.CYCLE_OUT_FOR_NOW if out else phrases.CYCLE_BACK


def title(procedure: Procedure, unit: str, steps: Sequence[Step]) -> str:
    """The title of a cycle, with the unit's own name if it has one."""
    planned = planned_unit(procedure, unit)
    said = title_phrase(procedure, unit, steps).format(bay=planned.bay if planned else unit)
    if planned is None or words.has_default_name(planned):
        return said
    return phrases.CYCLE_UNIT.format(title=said, unit=planned.name)


class CycleIntro:
    """The one number the loader needs, and what holds the unit."""

    def __init__(self, procedure: Procedure, hold: Hold, limits: LimitTable, mass_unit: str) -> None:
        self.procedure = procedure
        self.hold = hold
        self.limits = limits
        self.mass_unit = mass_unit

    def say(self, unit: str, steps: Sequence[Step], rest: Sequence[Step], end: Standing) -> str:
        """The line for a cycle; `rest` are the steps behind it, `end` is how the hold stands then."""
        planned = planned_unit(self.procedure, unit)
        if planned is None or planned.bay not in self.hold.positions:
            return ""
        held_by = self.hold.positions[planned.bay].held_by
        if comes_out(self.procedure, steps):
            return self._freed(planned, steps, held_by)
        mass = words.limit(self.limits, planned, self.mass_unit)
        raised = [step.item for step in steps if isinstance(step, (Raise, Fit)) and step.item in held_by]
        later = [
            step.item
            for step in rest
            if isinstance(step, (Raise, Fit)) and step.item in held_by and step.item not in end.raised
        ]
        return words.sentences(
            phrases.INTRO_LIMIT.format(type=planned.unit_type, mass=mass) if mass else "",
            self._items(phrases.INTRO_LOCK, list(dict.fromkeys(raised))),
            self._items(phrases.INTRO_ALREADY, self._raised_ahead(planned, raised, end)),
            self._items(phrases.INTRO_LATER, list(dict.fromkeys(later))),
        )

    def _freed(self, planned: PlannedUnit, steps: Sequence[Step], held_by: Sequence[str]) -> str:
        lowered = [step.item for step in steps if isinstance(step, Lower) and step.item in held_by]
        removed = [step.item for step in steps if isinstance(step, Remove) and step.item in held_by]
        doing = [
            phrase.format(items=words.items(self.hold, list(dict.fromkeys(names))))
            for phrase, names in ((phrases.FREE_LOWER, lowered), (phrases.FREE_REMOVE, removed))
            if names
        ]
        for_now = title_phrase(self.procedure, planned.name, steps) == phrases.CYCLE_OUT_FOR_NOW
        return words.sentences(
            phrases.INTRO_FREE.format(doing=words.listing(doing)) if doing else "",
            phrases.INTRO_FOR_NOW if for_now else "",
        )

    def _raised_ahead(self, planned: PlannedUnit, raised: Sequence[str], end: Standing) -> list[str]:
        """What an earlier cycle raised by hand for this unit alone: no other unit aboard is held by it."""
        others = {
            name
            for unit, bay in end.units.items()
            if unit != planned.name and bay in self.hold.positions
            for name in self.hold.positions[bay].held_by
        }
        return [
            name
            for name in self.hold.positions[planned.bay].held_by
            if name in end.raised and name not in raised and name not in others and self._moved_up(name)
        ]

    def _moved_up(self, name: str) -> bool:
        item = self.hold.restraints.get(name)
        return item is not None and item.by_hand and item.at_rest is RestraintState.LOWERED

    def _items(self, template: str, names: Sequence[str]) -> str:
        return template.format(items=words.items(self.hold, names)) if names else ""
