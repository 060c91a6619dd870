"""Tie-down: straps as they lie, and what they hold in each direction."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from procgen.model.stated import Stated
from procgen.model.words import LoadDirection
from procgen.units import Quantity


@dataclass(frozen=True, slots=True)
class Lay:
    """How a strap lies: for each direction it opposes, the square of the share of its load that counts.

    The squares of a strap that opposes three directions add up to one.
    """

    squares: Mapping[LoadDirection, Fraction]


@dataclass(frozen=True, slots=True)
class Strap:
    """A strap, rope, chain or net leg: its rated load, that of the fitting it ends in, and how it lies."""

    name: str
    rating: Stated
    lay: Lay
    fitting: Stated | None = None

    @property
    def governing(self) -> Stated:
        """The weaker of strap and fitting; the strap where they are equal."""
        if self.fitting is not None and self.fitting.quantity < self.rating.quantity:
            return self.fitting
        return self.rating


@dataclass(frozen=True, slots=True)
class StrapHold:
    """What one strap holds in one direction: the share of its load that counts, and the force."""

    strap: str
    share: Fraction
    force: Quantity


@dataclass(frozen=True, slots=True)
class DirectionHold:
    """One direction: the force asked for, what friction takes of it where the data says so, and what each
    strap holds. `demand` is before friction.
    """

    direction: LoadDirection
    demand: Quantity
    friction: Quantity
    straps: tuple[StrapHold, ...]
    reckoning: str

    @property
    def held(self) -> Quantity:
        """All straps and friction together, in the unit of the demand."""
        force = self.friction.si + sum((strap.force.si for strap in self.straps), Fraction(0))
        return Quantity(force / self.demand.unit.factor, self.demand.unit)

    @property
    def met(self) -> bool:
        """Whether what is held comes up to the demand; compared unrounded."""
        return self.held >= self.demand
