"""Whether the checks that the hazard list requires were made, and in time."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum, auto

from procgen.lint.reading import Reading
from procgen.model.hazard import Frequency, Hazard, RequiredCheck
from procgen.model.step import (
    Check,
    CheckItems,
    CheckLatch,
    Drive,
    Note,
    Present,
    Procedure,
    Push,
    Section,
    Stow,
    Warn,
)

_NOTHING_DONE = (Check, CheckItems, CheckLatch, Note, Section, Warn)
"""What may stand between a check and the step it is made for: nothing changes by it."""


class Fault(Enum):
    """What is wrong with a required check."""

    MISSING = auto()
    LATE = auto()
    EARLY = auto()
    WRONG_UNIT = auto()


@dataclass(frozen=True, slots=True)
class Lapse:
    """A required check that was not made as it must be.

    `before` is the index of the step that it must come before, `check` that of the check which was made
    instead (late, early or for another unit), `after` that of the step which an early one should have
    waited for, `unit` the unit of a check that is made for each.
    """

    fault: Fault
    hazard: Hazard
    required: RequiredCheck
    before: int
    check: int | None = None
    after: int | None = None
    unit: str | None = None


def lapses(reading: Reading) -> Iterator[Lapse]:
    """Every lapse, hazard by hazard; a check that several hazards ask for alike is reported once."""
    seen: set[RequiredCheck] = set()
    for hazard, _ in reading.met:
        for required in hazard.checks:
            if required not in seen:
                seen.add(required)
                yield from _lapses(reading, hazard, required)


def _lapses(reading: Reading, hazard: Hazard, required: RequiredCheck) -> Iterator[Lapse]:
    procedure = reading.procedure
    before = reading.matched(required.before)
    if not before:
        return
    if required.frequency is Frequency.EACH_UNIT:
        yield from _each_unit(procedure, hazard, required, before)
        return
    if required.frequency is Frequency.EACH_STEP:
        yield from _each_step(procedure, hazard, required, before)
        return
    after = reading.matched(required.after) if required.after else []
    waits = max((index for index in after if index < before[0]), default=-1)
    made = [
        index
        for index, step in enumerate(procedure.steps)
        if isinstance(step, Check) and step.condition == required.condition
    ]
    if any(waits < index < before[0] for index in made):
        return
    early = [index for index in made if index < before[0]]
    if early:
        yield Lapse(Fault.EARLY, hazard, required, before[0], early[-1], waits)
    elif made:
        yield Lapse(Fault.LATE, hazard, required, before[0], made[0])
    else:
        yield Lapse(Fault.MISSING, hazard, required, before[0])


def _each_step(
    procedure: Procedure, hazard: Hazard, required: RequiredCheck, before: list[int]
) -> Iterator[Lapse]:
    made = [
        index
        for index, step in enumerate(procedure.steps)
        if isinstance(step, Check) and step.condition == required.condition
    ]
    for index in before:
        waits = index - 1
        while waits >= 0 and isinstance(procedure.steps[waits], _NOTHING_DONE):
            waits -= 1
        if any(waits < at < index for at in made):
            continue
        early = [at for at in made if at < index]
        if early and waits >= 0:
            yield Lapse(Fault.EARLY, hazard, required, index, early[-1], waits)
        elif made:
            yield Lapse(Fault.LATE, hazard, required, index, made[0])
        else:
            yield Lapse(Fault.MISSING, hazard, required, index)


def _each_unit(
    procedure: Procedure, hazard: Hazard, required: RequiredCheck, before: list[int]
) -> Iterator[Lapse]:
    first: dict[str, int] = {}
    for index in before:
        step = procedure.steps[index]
        if isinstance(step, Present | Drive | Push | Stow):
            first.setdefault(step.unit, index)
    made = {
        index: step
        for index, step in enumerate(procedure.steps)
        if isinstance(step, Check) and step.condition == required.condition
    }
    start = 0
    for unit, index in first.items():
        own = [at for at, check in made.items() if check.unit == unit]
        astray = [at for at, check in made.items() if start <= at < index and check.unit != unit]
        start = index
        if any(at < index for at in own):
            continue
        if astray:
            yield Lapse(Fault.WRONG_UNIT, hazard, required, index, astray[-1], unit=unit)
        elif own:
            yield Lapse(Fault.LATE, hazard, required, index, own[0], unit=unit)
        else:
            yield Lapse(Fault.MISSING, hazard, required, index, unit=unit)
