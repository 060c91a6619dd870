"""One hold, as its description says it.

Frame: `x` runs aft from the datum, `y` to the right of the centreline looking forward, `z` up from the
hold floor. Everything is what an author wrote; nothing here is computed except which bays overlap.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, TypeVar

from procgen.diagnostics import NOWHERE, Place
from procgen.model.controls import Control, Drive, Panel, Power
from procgen.model.effectivity import Effectivity
from procgen.model.hand_moves import HandMoves
from procgen.model.loads import CumulativeLine, Note, SectionOutline, TieDown
from procgen.model.stated import Rectangle, Source, Span1, Stated
from procgen.model.words import (
    LoadDirection,
    RatingKind,
    RestraintKind,
    RestraintState,
    Side,
    Stand,
    Travel,
)
from procgen.units import Quantity

Made = TypeVar("Made")


@dataclass(frozen=True, slots=True)
class Floor:
    """The floor: extent, clear height above it, what units roll or slide on, what it carries.

    `running` is a mass per length along x under one unit (rows abreast count each on its own; what they
    carry together is a zone's), `area` a mass per area of a footprint; `bears_on_floor` says that units
    stand on the floor itself and not on rollers, so that the area limit applies to them. `contact` is a
    mass per area right under a support of a piece, `point` the most on one support, `line` a mass per
    length of a bearer.
    """

    rectangle: Rectangle
    height: Quantity
    surface: str
    bears_on_floor: bool = False
    running: Stated | None = None
    area: Stated | None = None
    place: Place = field(default=NOWHERE, compare=False)
    contact: Stated | None = None
    point: Stated | None = None
    line: Stated | None = None


@dataclass(frozen=True, slots=True)
class LoadFactors:
    """How many g a restraint must hold, by direction; limit or ultimate like the ratings."""

    kind: RatingKind
    by_direction: Mapping[LoadDirection, Stated]
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Wind:
    """Wind speeds above which the door may not be opened, and may not be left open."""

    opening: Stated | None
    open: Stated | None


@dataclass(frozen=True, slots=True)
class Door:
    """A cargo door. `close_needs` says which restraints must be in which state before it may close.

    Besides those no unit may stand on the sill line, every panel must be closed and nobody be inside.
    `wall` is the thickness of the wall around the opening; None where the description leaves it out.
    """

    name: str
    title: str
    side: Side
    x: Span1
    clear_width: Quantity
    clear_height: Quantity
    sill: Quantity
    wind: Wind
    close_needs: Mapping[str, RestraintState]
    place: Place = field(default=NOWHERE, compare=False)
    wall: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Bay:
    """A rectangle on the floor where one unit can stand; `door` names the door it lies at.

    A `bulk` bay is a section that is loaded by hand, piece by piece: it takes loose loads and nothing else.
    """

    name: str
    rectangle: Rectangle
    is_position: bool
    door: str | None = None
    place: Place = field(default=NOWHERE, compare=False)
    bulk: bool = False


@dataclass(frozen=True, slots=True)
class Lane:
    """A direction and the places it runs through, in order; `outside` may be the first."""

    go: Travel
    through: tuple[str, ...]
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Restraint:
    """A latch, lock, guide, rail, stop or net.

    Either `between` two neighbouring bays (the first of which may be `outside`) or `beside` one or more
    bays. Raised, it stops travel in `stops` between the two bays, save that a unit travelling in
    `override` pushes it down; with `returns_by_spring` it then comes up when the unit is clear, else it
    stays down until raised by hand. One lowered by hand stays down until raised by hand.
    `lowered_by` maps controls to the position that lowers it while held (only with power on where
    `powered`); it comes up when the control is let go and no unit is over it.
    `guides` lists ordered moves (from, to) during which it must be up.
    `closing_state` is how it must stand at the end where it holds no loaded bay; None leaves it free.
    `rating` is its rated load by direction. A restraint that stands between two bays (also one beside two
    bays that lie abreast) holds a unit towards itself and not away from itself, unless it `grips` the
    unit's base and holds it both ways.
    """

    name: str
    title: str
    kind: RestraintKind
    at_rest: RestraintState
    between: tuple[str, str] | None = None
    beside: tuple[str, ...] = ()
    stops: frozenset[Travel] = frozenset()
    override: frozenset[Travel] = frozenset()
    by_hand: bool = False
    fixed: bool = False
    reached_from: Stand | None = None
    lowered_by: Mapping[str, str] = field(default_factory=dict)
    powered: bool = False
    returns_by_spring: bool = False
    guides: tuple[tuple[str, str], ...] = ()
    closing_state: RestraintState | None = None
    rating: Mapping[LoadDirection, Stated] = field(default_factory=dict)
    grips: bool = False
    place: Place = field(default=NOWHERE, compare=False)

    @property
    def at_start(self) -> RestraintState:
        """How it stands where a procedure begins and no unit is held by it: as the one before it left it."""
        return self.closing_state or self.at_rest if self.by_hand else self.at_rest


@dataclass(frozen=True, slots=True)
class Position:
    """What holds a unit in a bay, and what the bay may carry.

    `held_by` must be raised while a unit stands here. `max_mass` is by base size code or unit type.
    `contours` lists the contour codes that fit; empty means that only the height counts.
    """

    name: str
    held_by: tuple[str, ...]
    max_mass: Mapping[str, Stated]
    contours: tuple[str, ...] = ()
    height: Quantity | None = None
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Zone:
    """A set of positions, or a stretch of x, and the most they may carry together.

    Without `positions` every unit counts; with `x`, only what of a unit stands in that stretch.
    `combined` is the most in all, `running` the most per length at any x (rows abreast together),
    `asymmetry` the most that one half may outweigh the other, `adjacent` the most that two neighbours along
    x in one row may weigh.
    """

    name: str
    title: str
    positions: tuple[str, ...]
    combined: Stated | None
    place: Place = field(default=NOWHERE, compare=False)
    x: Span1 | None = None
    running: Stated | None = None
    asymmetry: Stated | None = None
    adjacent: Stated | None = None


@dataclass(frozen=True)
class Hold:
    """One hold of one aircraft type: the machine everything else is derived from.

    Some aircraft of a type may have the hold otherwise than the rest: each such way is a description of its
    own, with the `effectivity` of the aircraft that have it. All but one are a `variant_of` that one.
    """

    # No slots: which bays share floor is asked for all the time, and reckoned once, as is what stages index.

    name: str
    title: str
    aircraft: str
    demonstration: bool
    sources: Mapping[str, Source]
    floor: Floor
    load_factors: LoadFactors
    doors: Mapping[str, Door]
    bays: Mapping[str, Bay]
    lanes: tuple[Lane, ...]
    controls: Mapping[str, Control]
    panels: Mapping[str, Panel]
    power: Power | None
    drives: Mapping[str, Drive]
    restraints: Mapping[str, Restraint]
    positions: Mapping[str, Position]
    zones: Mapping[str, Zone]
    hand_moves: HandMoves | None = None
    place: Place = field(default=NOWHERE, compare=False)
    cumulative: Mapping[str, CumulativeLine] = field(default_factory=dict)
    out_together: tuple[tuple[str, str], ...] = ()
    cross_section: SectionOutline | None = None
    tie_down: TieDown | None = None
    notes: tuple[Note, ...] = ()
    effectivity: Effectivity | None = None
    variant_of: str = ""

    @property
    def family(self) -> str:
        """The name that this hold and its variants go by together."""
        return self.variant_of or self.name

    def overlapping(self, bay: str) -> frozenset[str]:
        """The other bays that share floor with `bay` and so exclude it."""
        return self._sharing[bay]

    def once(self, function: Callable[[Hold], Made]) -> Made:
        """What a pure function makes of this hold; it is called the first time that it is asked for."""
        if function not in self._made:
            self._made[function] = function(self)
        made: Made = self._made[function]
        return made

    @cached_property
    def _made(self) -> dict[Callable[[Hold], Any], Any]:
        return {}

    @cached_property
    def _sharing(self) -> Mapping[str, frozenset[str]]:
        floor = {name: bay.rectangle for name, bay in self.bays.items()}
        return {
            name: frozenset(other for other, its in floor.items() if other != name and mine.overlaps(its))
            for name, mine in floor.items()
        }
