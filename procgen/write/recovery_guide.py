"""The ways out of every mishap at every step, in words, and small: what is said alike stands once."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TypeVar

from procgen.model.hazard import HazardList
from procgen.model.hold import Hold
from procgen.model.step import Drive, Procedure, Push, Stow
from procgen.model.unit import UnitType
from procgen.model.words import OUTSIDE, SectionName
from procgen.results.limits import LimitTable
from procgen.results.page import (
    PageStep,
    PageWarning,
    ProcedurePage,
    RecoveryCase,
    RecoveryGuide,
    RecoveryWay,
)
from procgen.results.recovery import Answer, Case, Mishap, Outcome
from procgen.write import phrases, words
from procgen.write.pages import page

Thing = TypeVar("Thing", bound=Hashable)
Told = tuple[int, int, tuple[int, ...]]
"""What a case says besides where the unit stands: the way, the step to be done first, why."""


@dataclass(slots=True)
class _Guide:
    """One guide in the making."""

    hold: Hold
    unit_types: Mapping[str, UnitType]
    hazards: HazardList
    limits: LimitTable
    mass_unit: str
    steps: dict[PageStep, int] = field(default_factory=dict)
    warnings: dict[PageWarning, int] = field(default_factory=dict)
    ways: dict[RecoveryWay, int] = field(default_factory=dict)
    reasons: dict[str, int] = field(default_factory=dict)
    _known: dict[int, int] = field(default_factory=dict)

    def way(self, answer: Answer) -> int:
        """The number of the way of an answer."""
        known = id(answer)
        if known not in self._known:
            self._known[known] = _number(self.ways, self._way(answer))
        return self._known[known]

    def why(self, answer: Answer) -> tuple[int, ...]:
        """The numbers of its reasons, the first of each aim: what follows from it goes without saying."""
        heads: dict[str, str] = {}
        for reason in answer.reasons:
            heads.setdefault(reason.message.partition(": ")[0], reason.message)
        return tuple(_number(self.reasons, message) for message in heads.values())

    def _way(self, answer: Answer) -> RecoveryWay:
        made = answer.procedure
        if answer.outcome is Outcome.LATER:
            return RecoveryWay(answer.outcome, answer.title)
        said = page(
            made,
            self.hold,
            self.unit_types,
            self.hazards,
            self.limits,
            mass_unit=self.mass_unit,
            start=answer.start,
        )
        first = [block for block in said.blocks if block.kind == SectionName.BEFORE_YOU_START]
        rest = [block for block in said.blocks if block.kind != SectionName.BEFORE_YOU_START]
        heads = (*said.warnings, *(warning for block in said.blocks for warning in block.warnings))
        return RecoveryWay(
            outcome=answer.outcome,
            title=answer.title,
            stop=tuple(self._step(step) for block in first for step in block.steps),
            then=tuple(self._step(step) for block in rest for step in block.steps),
            warnings=tuple(_number(self.warnings, warning) for warning in dict.fromkeys(heads)),
        )

    def _step(self, step: PageStep) -> int:
        """The number of a step that says the same; where it stands in its own page does not count."""
        told = replace(step, number=0, index=0, marks=(), cause=None, step=None)
        number = self.steps.get(told)
        if number is None:
            number = _number(self.steps, told)
        return number


def recovery_guide(
    procedure: Procedure,
    shown: ProcedurePage,
    cases: Sequence[Case],
    hold: Hold,
    unit_types: Mapping[str, UnitType],
    hazards: HazardList,
    limits: LimitTable,
    *,
    mass_unit: str = "",
) -> RecoveryGuide:
    """What to do at every step of a page when something goes wrong.

    Consecutive steps with the same answers are one case; steps, warnings and ways that read the same stand
    once. Masses are shown as in `page`.
    """
    making = _Guide(hold, unit_types, hazards, limits, mass_unit)
    numbers = {step.index: step.number for block in shown.blocks for step in block.steps}
    found = [
        case
        for mishap in Mishap
        for case in _grouped(making, mishap, [one for one in cases if one.mishap is mishap], numbers)
    ]
    return RecoveryGuide(
        name=shown.name,
        title=shown.title,
        hold=hold.name,
        operation=procedure.operation,
        warnings=tuple(making.warnings),
        steps=tuple(making.steps),
        ways=tuple(making.ways),
        cases=tuple(sorted(found, key=lambda case: (case.first, case.last))),
        reasons=tuple(making.reasons),
    )


def _grouped(
    making: _Guide, mishap: Mishap, cases: Sequence[Case], numbers: Mapping[int, int]
) -> Iterator[RecoveryCase]:
    """The cases of one mishap, those of consecutive steps that are answered alike as one."""
    by_step: dict[int, dict[Told, tuple[tuple[str, ...], ...]]] = {}
    for case in cases:
        told = by_step.setdefault(numbers[case.index], {})
        answer = case.answer
        until = numbers.get(answer.until, 0) if answer.until is not None else 0
        key = (making.way(answer), until, making.why(answer))
        told[key] = (*told.get(key, ()), case.places)
    runs: list[tuple[int, int]] = []
    for number in sorted(by_step):
        if runs and runs[-1][1] == number - 1 and by_step[runs[-1][0]] == by_step[number]:
            runs[-1] = (runs[-1][0], number)
        else:
            runs.append((number, number))
    for first, last in runs:
        for (way, until, why), places in by_step[first].items():
            shown = tuple(place for place in dict.fromkeys(places) if place)
            yield RecoveryCase(mishap, first, last, way, shown, until, why)


def titled(answer: Answer) -> Answer:
    """An answer that says in one line what it comes to."""
    return replace(answer, title=_title(answer))


def _title(answer: Answer) -> str:
    """What a way comes to, in one line."""
    unit, steps = answer.unit, answer.procedure.steps
    if answer.outcome is Outcome.LATER:
        return phrases.WAY_LATER
    if answer.outcome is Outcome.CALL:
        return phrases.WAY_CALL
    if answer.outcome is Outcome.GONE_ON:
        return phrases.WAY_GOES_ON
    moves = [step for step in steps if isinstance(step, Drive | Push | Stow) and step.unit == unit]
    if moves:
        place = moves[-1].through[-1]
        by_hand = all(isinstance(step, Push) for step in moves)
        if place == OUTSIDE:
            pulled = any(isinstance(step, Push) and step.gear is not None for step in moves)
            by_people = phrases.WAY_OUT_PULLED if pulled else phrases.WAY_OUT_BY_HAND
            return by_people if by_hand else phrases.WAY_OUT
        return (phrases.WAY_TO_BY_HAND if by_hand else phrases.WAY_TO).format(bay=words.bay(place))
    if not unit:
        return phrases.WAY_CLOSE
    here = words.bay(answer.start.units.get(unit, ""))
    others_out = answer.outcome is Outcome.OTHERS_OUT
    return (phrases.WAY_OTHERS_OUT if others_out else phrases.WAY_SECURE).format(bay=here)


def _number(table: dict[Thing, int], thing: Thing) -> int:
    return table.setdefault(thing, len(table))
