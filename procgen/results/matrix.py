"""The out-of-service matrix: what becomes of every position with every single item out of service."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import TypeVar

from procgen.model.step import CheckItems, OutOfService, Procedure, Step
from procgen.model.words import Operation
from procgen.results.missing import MissingCell
from procgen.results.plan import Reason


class Answer(StrEnum):
    """What becomes of a position, the gravest last."""

    AS_BEFORE = "as-before"
    OTHER_STEPS = "other-steps"
    BY_HAND = "by-hand"
    LOWER_LIMIT = "lower-limit"
    NOT_USABLE = "not-usable"


@dataclass(frozen=True, slots=True)
class Outcome:
    """What comes of working one position in one load: alone in the hold, or with others.

    `positions` are those that are loaded or unloaded with it (itself among them). Workable: `left_out` and
    `put_in` are the steps by which the work on it differs from the work with everything in service, and
    `crew` is how many people push or carry where they did not before. Not workable: `reasons` say why, each
    with its place in the description.
    """

    positions: tuple[str, ...]
    left_out: tuple[Step, ...] = ()
    put_in: tuple[Step, ...] = ()
    crew: int | None = None
    reasons: tuple[Reason, ...] = ()

    @property
    def workable(self) -> bool:
        """Whether there are steps for it, proven by simulation."""
        return not self.reasons

    @property
    def same(self) -> bool:
        """Whether its steps are the same as with everything in service."""
        return self.workable and not self.left_out and not self.put_in


@dataclass(frozen=True, slots=True)
class MatrixCell:
    """One position in one operation with one item out of service.

    `alone` is judged with all other positions empty, `together` in the fullest load that can still be
    worked. `limits` are what it may carry of the unit types for which that is changed (loading only).
    `procedure` names the procedure that works it, among those of the matrix; empty where none is needed or
    none is to be had.
    """

    position: str
    operation: Operation
    alone: Outcome
    together: Outcome
    limits: tuple[MissingCell, ...] = ()
    procedure: str = ""

    @property
    def answers(self) -> tuple[Answer, ...]:
        """All that is true of the cell, the gravest last."""
        if not self.alone.workable or any(not cell.usable for cell in self.limits):
            return (Answer.NOT_USABLE,)
        both = (self.alone, self.together)
        found = [
            (Answer.OTHER_STEPS, not self.alone.same or not self.together.same),
            (Answer.BY_HAND, any(one.crew is not None for one in both)),
            (Answer.LOWER_LIMIT, any(cell.lowered for cell in self.limits)),
        ]
        return tuple(answer for answer, is_so in found if is_so) or (Answer.AS_BEFORE,)

    @property
    def answer(self) -> Answer:
        """The gravest of them."""
        return self.answers[-1]


@dataclass(frozen=True, slots=True)
class MatrixRow:
    """One item out of service in one way; `words` say so (`lock 41 stuck down`)."""

    out: OutOfService
    words: str
    cells: tuple[MatrixCell, ...]


@dataclass(frozen=True, slots=True)
class Matrix:
    """Every row of a hold, in the order of its description.

    `procedures` are those that the cells name, each distinct one once, with their warnings and checks.
    `plans` counts the plans that were made and simulated for it.
    """

    hold: str
    rows: tuple[MatrixRow, ...]
    procedures: Mapping[str, Procedure] = field(default_factory=dict)
    plans: int = 0


Told = TypeVar("Told", bound=Hashable)


def grouped(
    row: MatrixRow, tell: Callable[[MatrixCell], Told]
) -> tuple[tuple[Operation, Told, tuple[str, ...]], ...]:
    """The cells of a row that are told alike, as operation, what is told, and the positions it is told of."""
    groups: dict[tuple[Operation, Told], list[str]] = {}
    for cell in row.cells:
        groups.setdefault((cell.operation, tell(cell)), []).append(cell.position)
    return tuple((operation, told, tuple(where)) for (operation, told), where in groups.items())


def told_apart(left_out: Sequence[Step], put_in: Sequence[Step]) -> tuple[tuple[Step, ...], tuple[Step, ...]]:
    """Differing steps without the items looked at on both sides: those are only looked at with others."""
    was, now = _looked_at(left_out), _looked_at(put_in)
    return tuple(_less(left_out, now)), tuple(_less(put_in, was))


def _looked_at(steps: Sequence[Step]) -> set[tuple[str, object]]:
    return {(item, step.state) for step in steps if isinstance(step, CheckItems) for item in step.items}


def _less(steps: Sequence[Step], known: set[tuple[str, object]]) -> Iterator[Step]:
    for step in steps:
        if not isinstance(step, CheckItems):
            yield step
            continue
        own = tuple(item for item in step.items if (item, step.state) not in known)
        if own:
            yield replace(step, items=own)
