"""A given load and how far it uses every limit on it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from procgen.diagnostics import NOWHERE, Place
from procgen.model.stated import SourceRef
from procgen.model.words import LoadDirection
from procgen.results.uses import Use, first_to_bind
from procgen.units import Quantity


@dataclass(frozen=True, slots=True)
class GivenUnit:
    """A unit of a given load: the hold and position it stands in, its type and its mass."""

    hold: str
    position: str
    unit_type: str
    mass: Quantity
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Refused:
    """A unit that may not stand where it is given, whatever it weighs, and why."""

    unit: GivenUnit
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CountedInFull:
    """A restraint whose rated loads are counted in full for each of several units of a load that press on it
    the same way: the directions, and the positions in the order of the load.
    """

    restraint: str
    title: str
    directions: tuple[LoadDirection, ...]
    positions: tuple[str, ...]
    sources: tuple[SourceRef, ...] = ()
    places: tuple[Place, ...] = field(default=(), compare=False)


@dataclass(frozen=True, slots=True)
class LoadCheck:
    """The load of one hold: the use of every position's own limit, then of every limit on several units.

    `others` has, for each of `own` in its order, the use of every other candidate of that position's limit.
    `counted_in_full` is what the check takes for granted of restraints that hold several of the units.
    """

    hold: str
    units: tuple[GivenUnit, ...]
    own: tuple[Use, ...]
    together: tuple[Use, ...]
    refused: tuple[Refused, ...]
    others: tuple[tuple[Use, ...], ...] = ()
    counted_in_full: tuple[CountedInFull, ...] = ()

    @property
    def uses(self) -> Sequence[Use]:
        """Every constraint."""
        return (*self.own, *self.together)

    def others_of(self, use: Use) -> tuple[Use, ...]:
        """The other candidates of a position's limit; none for a limit on several units."""
        return next((found for own, found in zip(self.own, self.others, strict=False) if own is use), ())

    @property
    def first(self) -> Use | None:
        """The constraint that binds first; None where there is none."""
        return first_to_bind(self.uses)

    @property
    def met(self) -> bool:
        """Whether every unit may stand where it does and every limit holds; compared unrounded."""
        return not self.refused and all(use.met for use in self.uses)
