"""A procedure as a page in words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from procgen.model.hazard import HazardList
from procgen.model.hold import Hold
from procgen.model.step import Procedure
from procgen.model.unit import UnitType
from procgen.model.words import SectionName
from procgen.results.limits import LimitTable
from procgen.results.page import PageBlock, PageStep, PageWarning, ProcedurePage
from procgen.results.state import State
from procgen.write import phrases
from procgen.write.blocks import Block, Warnings, blocks, warnings
from procgen.write.cycle_words import CycleIntro, planned_unit
from procgen.write.cycle_words import title as cycle_title
from procgen.write.fields import Situation
from procgen.write.matching import comes_with, unit_of
from procgen.write.page_folds import page_folds
from procgen.write.standing import (
    Standing,
    after,
    last_inside,
    next_closed,
    next_door,
    next_move_by_hand,
    standing_at_start,
    standing_in,
)
from procgen.write.steps import StepWords


def page(
    procedure: Procedure,
    hold: Hold,
    unit_types: Mapping[str, UnitType],
    hazards: HazardList,
    limits: LimitTable,
    *,
    mass_unit: str = "",
    start: State | None = None,
) -> ProcedurePage:
    """Any procedure for `hold`, generated or written by hand, in words.

    Masses are shown in `mass_unit`, rounded down; in the unit of the data where none is given. Unit types
    are shown by their trade codes, as they are painted on the units, so `unit_types` is not looked into.
    Without a `start` the hold is closed and at rest.
    Names that the hold or the hazard list does not have are shown as they were written.
    """
    found = blocks(procedure)
    first = standing_at_start(procedure, hold) if start is None else standing_in(start)
    making = _Page(procedure, hold, hazards, StepWords(hold, hazards, limits, mass_unit), found, first)
    shown = tuple(making.block(number) for number in range(len(found)))
    return ProcedurePage(
        name=procedure.name,
        title=procedure.title or f"{hold.title}: {procedure.operation}",
        hold=hold.name,
        operation=procedure.operation,
        generated=procedure.generated,
        warnings=making.warnings.page,
        blocks=shown,
        units=_moved(procedure, found),
        folds=page_folds(procedure, shown, hold),
        effectivity=procedure.effectivity,
    )


class _Page:
    """One page in the making."""

    def __init__(
        self,
        procedure: Procedure,
        hold: Hold,
        hazards: HazardList,
        step_words: StepWords,
        found: Sequence[Block],
        first: Standing,
    ) -> None:
        self.procedure = procedure
        self.hold = hold
        self.hazards = hazards
        self.words = step_words
        self.blocks = found
        self.warnings: Warnings = warnings(procedure, hazards)
        self.standings = _standings(procedure, hold, first)
        self.last_inside = last_inside(procedure.steps, hold)
        self.numbers = {
            index: number
            for number, index in enumerate((i for block in found for i in block.actions), start=1)
        }

    def block(self, number: int) -> PageBlock:
        """One block with its steps."""
        block = self.blocks[number]
        first = number == 0 or self.blocks[number - 1].part != block.part
        title, intro = phrases.BLOCKS[block.section]
        planned = planned_unit(self.procedure, block.unit)
        if block.unit:
            title, intro = self._cycle(block)
        kind = "cycle" if block.section is SectionName.MOVE_UNITS else str(block.section)
        return PageBlock(
            letter=_letter(number),
            kind=kind,
            title=title,
            intro=intro,
            warnings=self.warnings.parts.get(block.part, ()) if first else (),
            steps=tuple(self._step(index, block) for index in block.actions),
            unit=block.unit,
            bay=planned.bay if planned else "",
        )

    def _step(self, index: int, block: Block) -> PageStep:
        step = self.procedure.steps[index]
        by_hand = next_move_by_hand(self.procedure.steps, index)
        closing = next_closed(self.procedure.steps, index, self.hold)
        door = next_door(self.procedure.steps, index, self.hold)
        now = Situation(
            self.procedure, self.hold, self.standings[index], unit_of(step), by_hand, closing, door
        )
        said = self.words.say(step, now, block.unit)
        return PageStep(
            number=self.numbers[index],
            index=index,
            text=said.text,
            why=said.why,
            done_when=said.done_when,
            if_not=said.if_not,
            then=phrases.COME_OUT if index in self.last_inside else "",
            who=said.who,
            warnings=self.warnings.steps.get(index, ()),
            marks=self._marks(index, block),
            cause=step.place if step.place.file else None,
            step=step,
        )

    def _marks(self, index: int, block: Block) -> tuple[str, ...]:
        """The warnings at the head of the page and of the section that come with this step."""
        step = self.procedure.steps[index]
        standing: tuple[PageWarning, ...] = (*self.warnings.page, *self.warnings.parts.get(block.part, ()))
        return tuple(
            warning.name
            for warning in standing
            if warning.name in self.hazards.hazards
            and comes_with(self.hazards.hazards[warning.name], step, self.hold, self.procedure.operation)
        )

    def _cycle(self, block: Block) -> tuple[str, str]:
        """The title and the line at the head of a cycle."""
        steps = [self.procedure.steps[index] for index in block.actions]
        rest = self.procedure.steps[block.actions[-1] + 1 :]
        intro = CycleIntro(self.procedure, self.hold, self.words.limits, self.words.mass_unit)
        said = intro.say(block.unit, steps, rest, self._after(block.actions[-1]))
        return cycle_title(self.procedure, block.unit, steps), said

    def _after(self, index: int) -> Standing:
        return after(self.standings[index], self.procedure.steps[index], self.hold)


def _standings(procedure: Procedure, hold: Hold, now: Standing) -> tuple[Standing, ...]:
    """How the hold stands before each step, `now` before the first."""
    result: list[Standing] = []
    for step in procedure.steps:
        result.append(now)
        now = after(now, step, hold)
    return tuple(result)


def _letter(number: int) -> str:
    """A, B ... Z, AA, AB ... for a block counted from 0."""
    text = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, 26)
        text = chr(ord("A") + rest) + text
    return text


def _moved(procedure: Procedure, found: Sequence[Block]) -> tuple[tuple[str, str, str], ...]:
    """The units in the order in which they are moved; those that no step moves come last."""
    order = dict.fromkeys([block.unit for block in found if block.unit in procedure.units])
    order |= dict.fromkeys(procedure.units)
    return tuple((u.name, u.unit_type, u.bay) for u in (procedure.units[name] for name in order))
