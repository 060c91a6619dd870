"""What else limits loads: cumulative limits, cross-section, tie-down points and straps, landing gear, notes.

These records hold what an author wrote, as `procgen.model.hold` does.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from procgen.diagnostics import NOWHERE, Place
from procgen.model.stated import SourceRef, Stated
from procgen.model.words import LoadDirection
from procgen.units import Quantity


@dataclass(frozen=True, slots=True)
class CumulativeLine:
    """The most that may stand between one end of the hold and x: a line through points (x, mass)."""

    name: str
    title: str
    from_end: LoadDirection
    points: tuple[tuple[Quantity, Stated], ...]
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class SectionOutline:
    """The clear width of a hold across by height above the floor: corners (z, width), floor first."""

    corners: tuple[tuple[Quantity, Quantity], ...]
    source: SourceRef | None = None
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class TieDownPoint:
    """A fitting that a strap ends in: where it is, and the load it takes by direction of pull."""

    name: str
    title: str
    x: Quantity
    y: Quantity
    rating: Mapping[LoadDirection, Stated]
    z: Quantity | None = None
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class StrapType:
    """A strap, rope or chain and the load it holds along its length."""

    name: str
    title: str
    rating: Stated
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class TieDown:
    """What special loads are lashed with; `friction` counts only where the data gives it."""

    points: Mapping[str, TieDownPoint]
    straps: Mapping[str, StrapType]
    in_pairs: bool = False
    friction: Stated | None = None
    place: Place = field(default=NOWHERE, compare=False)


class NoteAbout(StrEnum):
    """What a note is about."""

    DANGEROUS_GOODS = "dangerous-goods"
    LIVE_LOAD = "live-load"
    LOADING = "loading"


@dataclass(frozen=True, slots=True)
class Note:
    """Something that the data say and that is shown, never computed."""

    about: NoteAbout
    text: str
    source: SourceRef | None
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class LandingGear:
    """Where the wheels of an aircraft stand, in x, and the least share of its weight on the nose gear."""

    nose: Quantity
    main: Quantity
    least_share: Stated
    source: SourceRef | None = None
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class EmptyAircraft:
    """What an aircraft weighs before loading, and the x of its centre of gravity."""

    mass: Quantity
    arm: Quantity
    source: SourceRef | None = None
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Contour:
    """The outline of a contour across: corners (y, z), y outboard from the middle of the base."""

    code: str
    outline: tuple[tuple[Quantity, Quantity], ...]
    source: SourceRef | None = None
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Allowances:
    """What a station allows for work that is not read from path lengths and speeds; `stow` is the time for
    one loose load, whatever it weighs.
    """

    hand_action: Quantity
    check: Quantity
    present: Quantity
    push: Quantity | None = None
    place: Place = field(default=NOWHERE, compare=False)
    stow: Quantity | None = None


@dataclass(frozen=True, slots=True)
class StationWind:
    """Wind limits of a station: stricter than those of the doors; `reason` says why."""

    opening: Quantity | None
    open: Quantity | None
    reason: str
    place: Place = field(default=NOWHERE, compare=False)
