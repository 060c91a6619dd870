"""Ground stability: the share of the weight that the nose gear carries, after every step."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from procgen.model.stated import Stated
from procgen.units import Quantity, of


@dataclass(frozen=True, slots=True)
class Gear:
    """Where the wheels stand, in x from the datum, and the least share of the weight on the nose gear
    (a ratio). Raises `ValueError` unless the main gear stands aft of the nose gear.
    """

    x_nose: Quantity
    x_main: Quantity
    least_share: Stated

    def __post_init__(self) -> None:
        if self.x_main <= self.x_nose:
            raise ValueError("the main gear stands aft of the nose gear")

    @property
    def wheelbase(self) -> Quantity:
        """The distance between the two."""
        return of(self.x_main.si - self.x_nose.si, "m")


@dataclass(frozen=True, slots=True)
class Mass:
    """A mass that comes aboard, or with a mass below zero one that leaves, and its moment about the datum
    in kg m. One of no mass with a moment is something aboard that moves. `passing` says that it does not stay
    where it now is: a unit on its way.
    """

    name: str
    mass: Quantity
    moment: Fraction
    passing: bool = False

    @staticmethod
    def at(name: str, mass: Quantity, x: Quantity) -> Mass:
        """A mass whose centre is at x."""
        return Mass(name, mass, mass.si * x.si)

    @property
    def leaving(self) -> Mass:
        """The same mass on its way out."""
        return Mass(self.name, Quantity(-self.mass.value, self.mass.unit), -self.moment)


@dataclass(frozen=True, slots=True)
class Stance:
    """How the aircraft stands after a step: `step` names what came or went (empty: as it stood before).

    `nose_share` is the part of the whole weight on the nose gear; `met` whether it is not below the limit.
    `passing`: a unit is on its way, at the aft-most bay that it passes.
    """

    step: str
    mass: Quantity
    centre: Quantity
    nose_load: Quantity
    nose_share: Fraction
    met: bool
    passing: bool = False


@dataclass(frozen=True, slots=True)
class HoldOrder:
    """An order of the holds, and how the aircraft stands after every step of it.

    Where no order keeps to the limit, `tail_stand` is true and this is the order that stays furthest
    from tipping. `any_order` says that every order keeps to it.
    """

    holds: tuple[str, ...]
    stances: tuple[Stance, ...]
    tail_stand: bool = field(default=False)
    any_order: bool = field(default=False)

    @property
    def crossed(self) -> Stance | None:
        """The first stance that is below the limit; None where there is none."""
        return next((stance for stance in self.stances if not stance.met), None)

    @property
    def worst(self) -> Stance:
        """The stance with the least weight on the nose; the first of equal ones."""
        return min(self.stances, key=lambda stance: stance.nose_share)
