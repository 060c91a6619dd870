"""Moving a unit by hand: the forces, the crew and what it rests on; or why it is not allowed."""

from __future__ import annotations

from dataclasses import dataclass

from procgen.units import Quantity

ADDING_UP = "People are taken to add their forces in full; real crews push less than that."
"""The assumption under every crew number, to be said wherever one is shown."""

PULLED = (
    "Pulled straight out, from the platform, with nobody in the hold. One person is taken to pull as much as"
    " to push."
)
"""What a pull is taken to be, to be said wherever what may be pulled is shown."""


@dataclass(frozen=True, slots=True)
class Push:
    """One phase of a move: `starting` or `moving`, the force it takes, the force of one person, and how many
    people that is, up to the next whole number.
    """

    phase: str
    force: Quantity
    per_person: Quantity
    people: int
    reckoning: str


@dataclass(frozen=True, slots=True)
class HandMove:
    """A mass moved by hand: the phases and the crew. Not allowed: `crew` is None and `reasons` say why."""

    mass: Quantity
    phases: tuple[Push, ...]
    crew: int | None
    reasons: tuple[str, ...] = ()
    assumption: str = ADDING_UP

    @property
    def governing(self) -> Push | None:
        """The phase that asks for more people; the first of equal ones."""
        return max(self.phases, key=lambda push: push.people, default=None)
