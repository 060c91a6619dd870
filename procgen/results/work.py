"""The work of a procedure as far as time goes: what kind of work, and for a move how far and how fast."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from procgen.diagnostics import Place
from procgen.units import Quantity


class WorkKind(StrEnum):
    """Kinds of work that take time; each has an allowance or a speed of its own."""

    HAND = "by hand"
    CHECK = "checks"
    PRESENT = "bringing units"
    DRIVE = "driving"
    PUSH = "pushing"
    STOW = "stowing"


@dataclass(frozen=True, slots=True)
class Work:
    """One piece of work in a cycle (a unit's, or a part of the procedure).

    `path` is how far a unit goes, `speed` how fast it is driven, None where the description does not say;
    `times` how often the same is done.
    """

    cycle: str
    kind: WorkKind
    words: str
    times: int = 1
    path: Quantity | None = None
    speed: Quantity | None = None
    places: tuple[Place, ...] = field(default=(), compare=False)
