"""What planning yields: steps, or the reasons why there are none."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from procgen.diagnostics import NOWHERE, Place
from procgen.model.step import PlannedUnit, Step
from procgen.model.words import Operation
from procgen.results.state import State


@dataclass(frozen=True, slots=True)
class Plan:
    """The machine's steps from a state to a goal, under their section heads, without warnings.

    `aboard` are the units that end where they stood; those of them in `put_back` come out meanwhile and are
    put back, because others could not pass. (A unit of `units` is there too, if it has to come out first.)
    """

    hold: str
    operation: Operation
    units: Mapping[str, PlannedUnit]
    start: State
    steps: tuple[Step, ...]
    aboard: Mapping[str, PlannedUnit] = field(default_factory=dict)
    put_back: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Reason:
    """One reason why there is no plan, in words, and the place in the description behind it."""

    message: str
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class NoPlan:
    """There is no plan; at least one reason why."""

    hold: str
    operation: Operation
    reasons: tuple[Reason, ...]


class Aim(StrEnum):
    """What a recovery leads to, the best first."""

    GO_ON = "go on"  # the operation is finished
    FINISH = "finish"  # the units on their way get where they were going; the rest stays as it is
    TAKE_OUT = "take out"  # the units on their way go back to where they came from
    SECURE = "secure"  # the units on their way are secured where they stand
    EMPTY = "empty"  # so are they, and everything else is taken out, because it stood in the way of that


@dataclass(frozen=True, slots=True)
class Recovery:
    """The way from a state in which something went wrong to a safe, closed hold.

    `aim` is what it leads to; `refused` are the better aims, with the reasons why they cannot be had.
    """

    plan: Plan
    aim: Aim
    refused: tuple[tuple[Aim, tuple[Reason, ...]], ...] = ()
