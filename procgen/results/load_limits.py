"""Limits on several units together, and units as they stand in a hold."""

from __future__ import annotations

from dataclasses import dataclass, field

from procgen.model.stated import Span1, Stated
from procgen.model.words import LoadDirection
from procgen.results.uses import Use
from procgen.units import Quantity


@dataclass(frozen=True, slots=True)
class Placed:
    """A unit as it stands: its position, its mass and the stretch of floor under its base.

    Its mass is taken to be spread evenly over its base.
    """

    name: str
    position: str
    mass: Quantity
    x: Span1
    y: Span1


@dataclass(frozen=True, slots=True)
class CombinedLimit:
    """The most that several positions, or all that stands in a stretch of x, may weigh together."""

    name: str
    title: str
    limit: Stated
    positions: tuple[str, ...] = ()
    x: Span1 | None = None


@dataclass(frozen=True, slots=True)
class CumulativeLimit:
    """The most that may stand between one end of the hold and x, as a line through points (x, mass).

    `from_end` is forward or aft. The line counts from its first point to its last, in order of x.
    """

    name: str
    title: str
    from_end: LoadDirection
    points: tuple[tuple[Quantity, Stated], ...]


@dataclass(frozen=True, slots=True)
class RunningLimit:
    """The most mass per length at any x; units that stand abreast count together. `x` and
    `positions`: only there.
    """

    name: str
    title: str
    limit: Stated
    x: Span1 | None = None
    positions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class AsymmetryLimit:
    """The most that the left half may outweigh the right, or the right the left. `x` and
    `positions`: only there.
    """

    name: str
    title: str
    limit: Stated
    x: Span1 | None = None
    positions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PairLimit:
    """The most that two neighbouring positions may weigh together."""

    name: str
    title: str
    limit: Stated
    positions: tuple[str, str]


LoadLimit = CombinedLimit | CumulativeLimit | RunningLimit | AsymmetryLimit | PairLimit
"""Every kind of limit on several units."""


@dataclass(frozen=True, slots=True)
class Most:
    """The most that units can weigh together, with one way to reach it.

    `masses` are those of the units in the order they were given; `stopped_by` names what keeps the sum from
    being larger, each with its use at this load; `own_limits` names the units that stand at their own limit.
    """

    total: Quantity
    masses: tuple[tuple[str, Quantity], ...]
    stopped_by: tuple[Use, ...]
    own_limits: tuple[str, ...] = field(default=())
