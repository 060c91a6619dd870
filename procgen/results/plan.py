"""What planning yields: steps, or the reasons why there are none."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from procgen.diagnostics import NOWHERE, Place
from procgen.model.step import PlannedUnit, Step
from procgen.model.words import Operation
from procgen.results.state import State


@dataclass(frozen=True, slots=True)
class Plan:
    """The machine's steps from a state to a goal, under their section heads, without warnings."""

    hold: str
    operation: Operation
    units: Mapping[str, PlannedUnit]
    start: State
    steps: tuple[Step, ...]
    aboard: Mapping[str, PlannedUnit] = field(default_factory=dict)


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
