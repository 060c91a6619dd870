"""A procedure cut into the blocks of its page: which steps, which warnings stand where."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from procgen.model.hazard import Hazard, HazardList, Scope
from procgen.model.step import Procedure, Section, Step, Warn
from procgen.model.words import SectionName, SignalWord
from procgen.results.page import PageWarning
from procgen.write.cycles import cycles
from procgen.write.matching import is_action


@dataclass(frozen=True, slots=True)
class Block:
    """The actions of one block by their index in the procedure; `unit` for the steps of one unit.

    `part` counts the sections: blocks of one part share the warnings at the head of the first of them.
    """

    section: SectionName
    part: int
    actions: tuple[int, ...]
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Warnings:
    """Which warnings stand at the head of the page, of a section (by its part), right before an action."""

    page: tuple[PageWarning, ...]
    parts: dict[int, tuple[PageWarning, ...]]
    steps: dict[int, tuple[PageWarning, ...]]


@dataclass(frozen=True, slots=True)
class _Part:
    """A section with its steps; what stands before the first head belongs to before-you-start."""

    name: SectionName
    start: int
    end: int


def _parts(steps: Sequence[Step]) -> list[_Part]:
    heads = [(index, step.name) for index, step in enumerate(steps) if isinstance(step, Section)]
    if not heads or heads[0][0] > 0:
        heads.insert(0, (-1, SectionName.BEFORE_YOU_START))
    ends = [index for index, _ in heads[1:]] + [len(steps)]
    return [_Part(name, start + 1, end) for (start, name), end in zip(heads, ends, strict=True)]


def blocks(procedure: Procedure) -> tuple[Block, ...]:
    """The blocks in order: one for a section with actions, one per unit where the section moves units."""
    steps = procedure.steps
    result: list[Block] = []
    for number, part in enumerate(_parts(steps)):
        found = cycles(steps, part.start, part.end) if part.name is SectionName.MOVE_UNITS else ()
        stretches = [(c.start, c.end, c.unit) for c in found] or [(part.start, part.end, "")]
        for start, end, unit in stretches:
            actions = tuple(index for index in range(start, end) if is_action(steps[index]))
            if actions:
                result.append(Block(part.name, number, actions, unit))
    return tuple(result)


def warnings(procedure: Procedure, hazards: HazardList) -> Warnings:
    """Where each warning of the procedure is shown.

    One for the whole procedure goes to the head of the page, one for a section that stands before the
    section's first action to the head of its first block; every other one stands where it was written,
    right before the next action. One behind the last action has nothing left to warn of, and is shown
    before that action, so that nothing an author wrote is lost.
    """
    result = Warnings((), {}, {})
    page: list[PageWarning] = []
    actions = [index for index, step in enumerate(procedure.steps) if is_action(step)]
    for number, part in enumerate(_parts(procedure.steps)):
        own = [index for index in actions if part.start <= index < part.end]
        for index in range(part.start, part.end):
            step = procedure.steps[index]
            if not isinstance(step, Warn):
                continue
            shown = page_warning(step, hazards.hazards.get(step.hazard))
            scope = hazards.hazards[step.hazard].scope if step.hazard in hazards.hazards else Scope.STEP
            at_head = bool(own) and index < own[0]
            if scope is Scope.PROCEDURE:
                page.append(shown)
            elif scope is Scope.SECTION and at_head:
                result.parts[number] = (*result.parts.get(number, ()), shown)
            elif actions:
                following = next((i for i in actions if i > index), actions[-1])
                result.steps[following] = (*result.steps.get(following, ()), shown)
    return Warnings(tuple(dict.fromkeys(page)), result.parts, result.steps)


def page_warning(step: Warn, hazard: Hazard | None) -> PageWarning:
    """A warning in words, under the signal word it was written with."""
    signal = next((word for word in SignalWord if word == step.signal), SignalWord.WARNING)
    if hazard is None:
        return PageWarning(step.hazard, signal, step.hazard.replace("-", " "), "", "", "")
    return PageWarning(hazard.name, signal, hazard.title, hazard.hazard, hazard.consequence, hazard.avoid)
