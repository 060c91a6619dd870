"""Where the steps of one unit end and those of the next begin."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from procgen.model.step import CheckItems, Drive, Fit, Note, Present, Push, Raise, Step, Stow, Warn
from procgen.write.matching import unit_of


@dataclass(frozen=True, slots=True)
class Cycle:
    """A stretch of steps that moves one unit, from `start` up to but not including `end`."""

    unit: str
    start: int
    end: int


def cycles(steps: Sequence[Step], start: int, end: int) -> tuple[Cycle, ...]:
    """Split the steps from `start` up to `end` by the unit that they move.

    After its last move a unit is secured: items raised or fitted and looked at right then are still its
    own. Whatever comes after that, up to the next unit's move, prepares the next unit. Steps before the
    first unit go with it, and those behind the last one stay with it. No unit, no cycle.
    """
    heads: list[tuple[str, int]] = []
    boundary = start
    for index in range(start, end):
        unit = unit_of(steps[index])
        if not unit:
            continue
        if not heads or unit != heads[-1][0]:
            heads.append((unit, boundary if heads else start))
        boundary = _secured(steps, index + 1, end, _moves(steps[index]))
    ends = [begin for _, begin in heads[1:]] + [end]
    return tuple(Cycle(unit, begin, stop) for (unit, begin), stop in zip(heads, ends, strict=False))


def _moves(step: Step) -> bool:
    return isinstance(step, (Drive, Push, Present, Stow))


def _secured(steps: Sequence[Step], index: int, end: int, moved: bool) -> int:
    """Where the securing that follows a move ends; a warning belongs to the step behind it."""
    secured = index
    while moved and index < end and isinstance(steps[index], (Raise, Fit, CheckItems, Note, Warn)):
        index += 1
        if not isinstance(steps[index - 1], Warn):
            secured = index
    return secured
