"""Where the warning of a hazard belongs in a procedure, and where it stands."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import partial

from procgen.lint.reading import Reading
from procgen.model.hazard import Hazard, Scope
from procgen.model.step import Check, CheckItems, CheckLatch, Note, Procedure, Report, Section, Warn

_NO_ACTION = (Warn, Check, CheckItems, CheckLatch, Report, Note)
"""Steps that may stand between a warning and the step it belongs to."""


@dataclass(frozen=True, slots=True)
class Need:
    """Steps that one warning covers: `steps` are their indexes, `window` the indexes where it may stand.

    `again` are the indexes where it may stand once more: right before the later steps of a run.
    """

    steps: tuple[int, ...]
    window: range
    again: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class Placing:
    """How the warnings of one hazard stand.

    `misplaced` pairs an unmet need with a warning that stands where it covers nothing; `missing` are unmet
    needs without one; `repeated` pairs a superfluous warning with the one that is enough.
    """

    hazard: Hazard
    misplaced: tuple[tuple[Need, int], ...] = field(default=())
    missing: tuple[Need, ...] = field(default=())
    repeated: tuple[tuple[int, int], ...] = field(default=())


def placings(reading: Reading) -> Iterator[Placing]:
    """How the warnings of each hazard that comes with some step stand."""
    procedure = reading.procedure
    for hazard, indexes in reading.met:
        needs = tuple(_needs(hazard, indexes, procedure))
        stands = [
            index
            for index, step in enumerate(procedure.steps)
            if isinstance(step, Warn) and step.hazard == hazard.name
        ]
        yield _placing(hazard, needs, stands, procedure)


def _placing(hazard: Hazard, needs: tuple[Need, ...], stands: list[int], procedure: Procedure) -> Placing:
    unmet: list[Need] = []
    used: set[int] = set()
    repeated: list[tuple[int, int]] = []
    for need in needs:
        used.update(index for index in stands if index in need.again)
        here = [index for index in stands if index in need.window]
        if not here:
            unmet.append(need)
            continue
        used.update(here)
        repeated.extend((index, here[0]) for index in here[1:])
    strays = [index for index in stands if index not in used]
    misplaced: list[tuple[Need, int]] = []
    missing: list[Need] = []
    for need in unmet:
        stray = min(strays, key=partial(_distance, procedure, need), default=None)
        if stray is None:
            missing.append(need)
        else:
            strays.remove(stray)
            misplaced.append((need, stray))
    if used:
        repeated.extend((index, min(used)) for index in strays)
    return Placing(hazard, tuple(misplaced), tuple(missing), tuple(sorted(repeated)))


def _distance(procedure: Procedure, need: Need, index: int) -> tuple[bool, int]:
    """A warning of the same section is more likely to be the one that was meant."""
    sections = section_numbers(procedure)
    return sections[index] != sections[need.steps[0]], abs(index - need.steps[0])


def _needs(hazard: Hazard, indexes: Sequence[int], procedure: Procedure) -> Iterator[Need]:
    sections = section_numbers(procedure)
    if hazard.scope is Scope.PROCEDURE:
        yield Need(tuple(indexes), range(_first_action(procedure)))
    elif hazard.scope is Scope.SECTION:
        for number in dict.fromkeys(sections[index] for index in indexes):
            group = tuple(index for index in indexes if sections[index] == number)
            yield Need(group, range(sections.index(number), group[0]))
    else:
        yield from _runs(indexes, procedure)


def _runs(indexes: Sequence[int], procedure: Procedure) -> Iterator[Need]:
    """One need for each run of matching steps with no other action between them."""
    run: list[int] = []
    for index in indexes:
        if run and _start_of_quiet(procedure, index) - 1 <= run[-1]:
            run.append(index)
            continue
        if run:
            yield _run(run, procedure)
        run = [index]
    yield _run(run, procedure)


def _run(run: list[int], procedure: Procedure) -> Need:
    first, *later = run
    again = frozenset(at for index in later for at in range(_start_of_quiet(procedure, index), index))
    return Need(tuple(run), range(_start_of_quiet(procedure, first), first), again)


def _start_of_quiet(procedure: Procedure, index: int) -> int:
    """The first of the steps right before `index` that are no actions."""
    while index > 0 and isinstance(procedure.steps[index - 1], _NO_ACTION):
        index -= 1
    return index


def _first_action(procedure: Procedure) -> int:
    quiet = (*_NO_ACTION, Section)
    found = (index for index, step in enumerate(procedure.steps) if not isinstance(step, quiet))
    return next(found, len(procedure.steps))


def section_numbers(procedure: Procedure) -> list[int]:
    """For each step the number of its section, counting from 1; 0 before the first one."""
    numbers: list[int] = []
    for step in procedure.steps:
        numbers.append((numbers[-1] if numbers else 0) + isinstance(step, Section))
    return numbers
