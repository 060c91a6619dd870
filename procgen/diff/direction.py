"""Which way is looser, for every kind of thing a version can say.

A thing is known by the record that holds it and its field: `Floor.running`, `Restraint.override`. One that is
not in the table counts as loosened whatever happens to it: nothing slips through as harmless because nobody
thought of it. Names of records and fields are those of `procgen.model` and `procgen.results`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from procgen.results.difference import DifferenceClass

LOOSENED = DifferenceClass.LOOSENED
TIGHTENED = DifferenceClass.TIGHTENED
CHANGED = DifferenceClass.CHANGED
WORDING = DifferenceClass.WORDING


@dataclass(frozen=True, slots=True)
class Direction:
    """The class of what can happen to a thing.

    `up` and `down`: what can be ranked rose or fell (a number; false to true; lowered to raised; outside to
    inside). `added` and `removed`: it came or went. `changed`: it is another, and neither more nor less.
    `moved`: it stands elsewhere in its order. `empty_is_all`: an empty list means everything, so that the
    first entry restricts and losing the last one lifts the restriction.
    """

    up: DifferenceClass
    down: DifferenceClass
    added: DifferenceClass
    removed: DifferenceClass
    changed: DifferenceClass
    moved: DifferenceClass
    why: str
    why_otherwise: str
    empty_is_all: bool = False

    def because(self, classed: DifferenceClass) -> str:
        """Why a difference here has its class, in words."""
        return self.why if classed is LOOSENED else self.why_otherwise


def _of(
    up: DifferenceClass,
    down: DifferenceClass,
    added: DifferenceClass,
    removed: DifferenceClass,
    why: str,
    why_otherwise: str,
    changed: DifferenceClass = LOOSENED,
    moved: DifferenceClass = WORDING,
) -> Direction:
    return Direction(up, down, added, removed, changed, moved, why, why_otherwise)


def _all(classed: DifferenceClass, why: str) -> Direction:
    return Direction(classed, classed, classed, classed, classed, WORDING, why, why)


UNKNOWN = Direction(
    LOOSENED, LOOSENED, LOOSENED, LOOSENED, LOOSENED, LOOSENED, "nothing says that this is harmless", ""
)
"""What is not in the table, and what can loosen either way."""

_LIMIT = _of(LOOSENED, TIGHTENED, TIGHTENED, LOOSENED, "more is allowed", "less is allowed")
_CAPACITY = _of(
    LOOSENED, TIGHTENED, LOOSENED, TIGHTENED, "it is said to hold more", "it is said to hold less"
)
_DEMAND = _of(TIGHTENED, LOOSENED, TIGHTENED, LOOSENED, "less is asked for", "more is asked for")
_ROOM = _of(LOOSENED, TIGHTENED, LOOSENED, TIGHTENED, "larger things go in", "only smaller things go in")
_SAFEGUARD = _of(TIGHTENED, LOOSENED, TIGHTENED, LOOSENED, "one safeguard fewer", "one safeguard more")
_LEAVE = _of(
    LOOSENED, TIGHTENED, LOOSENED, TIGHTENED, "one more thing is allowed", "one thing fewer is allowed"
)
_CONTENTS = _of(LOOSENED, TIGHTENED, LOOSENED, TIGHTENED, "more can be loaded", "less can be loaded")
_EQUIPMENT = _all(CHANGED, "other equipment")
_RESTRAINT = _of(TIGHTENED, LOOSENED, CHANGED, LOOSENED, "one restraint fewer", "one restraint more")
_ANOTHER = _all(CHANGED, "another way of doing the same")
_WORDS = _all(WORDING, "words only")
_PLACES = _all(LOOSENED, "where things stand decides what counts together, and either way can loosen")
_INSIDE = _of(
    LOOSENED,
    TIGHTENED,
    LOOSENED,
    TIGHTENED,
    "somebody must go inside to reach it",
    "nobody need go inside to reach it",
)
_TIMES = _of(
    TIGHTENED, LOOSENED, TIGHTENED, LOOSENED, "less time is allowed for the work", "more time is allowed"
)
_ALL_OR_LISTED = Direction(
    LOOSENED,
    TIGHTENED,
    LOOSENED,
    TIGHTENED,
    LOOSENED,
    WORDING,
    "more kinds are taken",
    "fewer kinds are taken",
    True,
)
_COUNTED = Direction(
    TIGHTENED,
    LOOSENED,
    TIGHTENED,
    LOOSENED,
    LOOSENED,
    WORDING,
    "less counts for it",
    "more counts for it",
    True,
)
_PROCEDURE = _of(
    CHANGED, CHANGED, CHANGED, LOOSENED, "its work is told no more", "one more procedure", CHANGED, WORDING
)

_AIRCRAFT = _of(
    LOOSENED, TIGHTENED, LOOSENED, TIGHTENED, "it applies to one more aircraft", "one aircraft fewer", CHANGED
)
_TABLE = _of(CHANGED, CHANGED, CHANGED, LOOSENED, "its numbers are told no more", "one more table")

DIRECTIONS: Mapping[str, Direction] = {
    # ---- the floor and the room
    "Floor.running": _LIMIT,
    "Floor.area": _LIMIT,
    "Floor.contact": _LIMIT,
    "Floor.point": _LIMIT,
    "Floor.line": _LIMIT,
    "Floor.height": _ROOM,
    "Floor.bears_on_floor": _SAFEGUARD,
    "Floor.surface": _ANOTHER,
    "Floor.rectangle": _PLACES,
    "SectionOutline.corners": _ROOM,
    "LoadFactors.by_direction": _DEMAND,
    "Door.clear_width": _ROOM,
    "Door.clear_height": _ROOM,
    "Door.wall": _DEMAND,
    "Door.x": _PLACES,
    "Door.side": _ANOTHER,
    "Door.sill": _ANOTHER,
    "Door.close_needs": _SAFEGUARD,
    "Wind.opening": _LIMIT,
    "Wind.open": _LIMIT,
    "StationWind.opening": _LIMIT,
    "StationWind.open": _LIMIT,
    "StationWind.reason": _WORDS,
    "Station.wind": _SAFEGUARD,
    # ---- bays, lanes and what works them
    "Bay.rectangle": _PLACES,
    "Bay.is_position": _CONTENTS,
    "Bay.door": _ANOTHER,
    "Lane.go": _ANOTHER,
    "Lane.through": _ANOTHER,
    "Control.kind": _ANOTHER,
    "Control.positions": _ANOTHER,
    "Control.hold_to_run": _SAFEGUARD,
    "Control.returns_when_clear": _SAFEGUARD,
    "Control.behind": _ANOTHER,
    "Control.at": _INSIDE,
    "Panel.at": _INSIDE,
    "Power.switch": _ANOTHER,
    "Power.on": _ANOTHER,
    "Power.off": _ANOTHER,
    "Power.needs": _SAFEGUARD,
    "Power.interlock_moves_while_on": _LEAVE,
    "Drive.under": _ANOTHER,
    "Drive.run_by": _ANOTHER,
    "Drive.go": _ANOTHER,
    "Drive.speed": _LIMIT,
    "Drive.pull": _LIMIT,
    # ---- restraints
    "Restraint.kind": _ANOTHER,
    "Restraint.at_rest": _SAFEGUARD,
    "Restraint.closing_state": _SAFEGUARD,
    "Restraint.stops": _SAFEGUARD,
    "Restraint.override": _LEAVE,
    "Restraint.by_hand": _ANOTHER,
    "Restraint.fixed": _SAFEGUARD,
    "Restraint.reached_from": _INSIDE,
    "Restraint.lowered_by": _LEAVE,
    "Restraint.powered": _SAFEGUARD,
    "Restraint.returns_by_spring": _SAFEGUARD,
    "Restraint.guides": _SAFEGUARD,
    "Restraint.rating": _CAPACITY,
    "Restraint.grips": _CAPACITY,
    # ---- what positions and zones carry
    "Position.held_by": _SAFEGUARD,
    "Position.max_mass": _LIMIT,
    "Position.contours": _ALL_OR_LISTED,
    "Position.height": _LIMIT,
    "Zone.combined": _LIMIT,
    "Zone.running": _LIMIT,
    "Zone.asymmetry": _LIMIT,
    "Zone.adjacent": _LIMIT,
    "Zone.positions": _COUNTED,
    "CumulativeLine.points": _LIMIT,
    "Hold.out_together": _LEAVE,
    "UnitType.max_gross": _LIMIT,
    "UnitType.height": _DEMAND,
    # ---- moving by hand, lashing, standing on the wheels
    "HandMoves.resistance_starting": _DEMAND,
    "HandMoves.resistance_moving": _DEMAND,
    "HandMoves.slope": _DEMAND,
    "HandMoves.force_starting": _LIMIT,
    "HandMoves.force_moving": _LIMIT,
    "HandMoves.max_mass": _LIMIT,
    "TieDownPoint.rating": _CAPACITY,
    "StrapType.rating": _CAPACITY,
    "TieDown.friction": _CAPACITY,
    "TieDown.in_pairs": _SAFEGUARD,
    "LandingGear.least_share": _DEMAND,
    "LandingGear.source": _ANOTHER,
    "EmptyAircraft.source": _ANOTHER,
    "Contour.source": _ANOTHER,
    "Aircraft.title": _WORDS,
    "Aircraft.configurations": _WORDS,
    "Aircraft.registrations": _AIRCRAFT,
    "Registered.configuration": _ANOTHER,
    "Configuration.title": _WORDS,
    "Hold.effectivity": _AIRCRAFT,
    "HoldSite.contours": _EQUIPMENT,
    "Hold.out_of_service": _EQUIPMENT,
    "Allowances.hand_action": _TIMES,
    "Allowances.check": _TIMES,
    "Allowances.present": _TIMES,
    "Allowances.push": _LIMIT,
    "Allowances.stow": _TIMES,
    # ---- things that come and go as a whole
    "Hold.restraints": _RESTRAINT,
    "Hold.zones": _LIMIT,
    "Hold.cumulative": _LIMIT,
    "Hold.positions": _CONTENTS,
    "Hold.hand_moves": _LEAVE,
    "Hold.cross_section": _LIMIT,
    "Hold.notes": _SAFEGUARD,
    "Hold.bays": _EQUIPMENT,
    "Hold.doors": _EQUIPMENT,
    "Hold.lanes": _EQUIPMENT,
    "Hold.controls": _EQUIPMENT,
    "Hold.panels": _EQUIPMENT,
    "Hold.drives": _EQUIPMENT,
    "Hold.sources": _ANOTHER,
    "Hold.tie_down": _EQUIPMENT,
    "TieDown.points": _EQUIPMENT,
    "TieDown.straps": _EQUIPMENT,
    "HoldSite.unit_types": _CONTENTS,
    "Station.contacts": _SAFEGUARD,
    "StationSite.holds": _CONTENTS,
    "Station.allowances": _TIMES,
    # ---- marks and words
    "Hold.demonstration": _SAFEGUARD,
    "Station.demonstration": _SAFEGUARD,
    "Contact.how": _ANOTHER,
    "Source.issue": _ANOTHER,
    "Source.date": _ANOTHER,
    "Source.title": _WORDS,
    "Stated.source": _ANOTHER,
    "BaseSize.source": _ANOTHER,
    "SectionOutline.source": _ANOTHER,
    "Note.source": _ANOTHER,
    "Station.title": _WORDS,
    "Station.mass_unit": _ANOTHER,
    "Station.revision": _WORDS,
    "StationSite.airline": _WORDS,
    "HoldSite.aircraft": _WORDS,
    "HoldSite.why_no_page": _ANOTHER,
    **{
        f"{record}.title": _WORDS
        for record in (
            "Hold",
            "Door",
            "Control",
            "Panel",
            "Drive",
            "Restraint",
            "Zone",
            "CumulativeLine",
            "TieDownPoint",
            "StrapType",
            "UnitType",
            "ProcedurePage",
        )
    },
    **{f"Revision.{field}": _WORDS for field in ("number", "date", "effective", "author", "reason")},
    # ---- steps
    "Drive_.hold": _ANOTHER,
    "Drive_.through": _ANOTHER,
    "Push.hold": _ANOTHER,
    "Push.through": _ANOTHER,
    "Push.crew": _DEMAND,
    "Stow.crew": _DEMAND,
    "Stow.through": _ANOTHER,
    "Present.door": _ANOTHER,
    "CheckItems.items": _SAFEGUARD,
    "CheckItems.state": _SAFEGUARD,
    "Check.unit": _ANOTHER,
    "SetControl.control": _ANOTHER,
    "SetControl.position": _ANOTHER,
    "PlannedUnit.unit_type": _ANOTHER,
    "PlannedUnit.bay": _ANOTHER,
    "Procedure.aboard": _ANOTHER,
    "ProcedurePage.generated": _ANOTHER,
    "ProcedurePage.units": _ANOTHER,
    "PageStep.marks": _SAFEGUARD,
    "PageStep.warnings": _SAFEGUARD,
    "PageWarning.signal": _SAFEGUARD,
    "HoldSite.pages": _PROCEDURE,
    "HoldTables.figures": _TABLE,
}
"""By record and field. `Drive` is the powered rollers of a hold; the step of that name is `Drive_`."""


def direction_of(record: str, field: str) -> Direction:
    """Which way is looser for a field of a record; `UNKNOWN` for one that nobody has thought of."""
    return DIRECTIONS.get(f"{record}.{field}", UNKNOWN)
