"""Everything that limits the mass of one unit in one position (limits.md, section 1).

Masses are exact and stay in the unit they derive from, so that 3500 lb and 1588 kg are compared as what
they are and shown as they were written.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from procgen.diagnostics import NOWHERE, Place
from procgen.limits.described import limits_of
from procgen.limits.engaged import engaged
from procgen.limits.fits import extent
from procgen.limits.shown import mass_symbol, shown
from procgen.limits.zones import Row, placed, rows
from procgen.model.hold import Hold, Position, Restraint
from procgen.model.stated import SourceRef, Stated
from procgen.model.unit import BaseSize, UnitType
from procgen.model.words import LoadDirection
from procgen.results.limits import Candidate
from procgen.results.load_limits import (
    AsymmetryLimit,
    CombinedLimit,
    LoadLimit,
    PairLimit,
    RunningLimit,
)
from procgen.units import Quantity, of


def candidates(hold: Hold, position: Position, unit_type: UnitType) -> tuple[Candidate, ...]:
    """All candidates, the least first; equal ones in the order in which they are described here."""
    found = [
        _unit_maximum(unit_type),
        *_position_limits(position, unit_type),
        *_floor_limits(hold, position, unit_type),
        *_restraint_limits(hold, position),
        *_shared_limits(hold, position, unit_type),
    ]
    return tuple(sorted(found, key=lambda candidate: candidate.mass))


def unrestrained(hold: Hold, position: Position) -> tuple[str, ...]:
    """A reason for each direction that has a load factor and no restraint rated for it."""
    return tuple(
        f"nothing that holds it is rated {direction} (load factor {factor.quantity})"
        for direction, factor in _factors(hold)
        if not rated(hold, position, direction)
    )


def rated(hold: Hold, position: Position, direction: LoadDirection) -> list[tuple[Restraint, Stated]]:
    """The restraints that hold a unit in this position in this direction, each once, with their ratings.

    A restraint forward of a unit does not keep it from going aft, whatever it is rated aft for the unit on
    its other side: it counts only for the direction in which it is engaged, unless it grips the base.
    """
    items = (hold.restraints[name] for name in dict.fromkeys(position.held_by))
    rated_items = (
        (item, item.rating.get(direction)) for item in items if engaged(hold, position, item, direction)
    )
    return [(item, rating) for item, rating in rated_items if rating is not None and rating.quantity.si > 0]


def _factors(hold: Hold) -> list[tuple[LoadDirection, Stated]]:
    """The load factors that ask something of a restraint, in the order of the directions' names."""
    stated = hold.load_factors.by_direction
    return [(d, stated[d]) for d in LoadDirection if d in stated and stated[d].quantity.si > 0]


def _unit_maximum(unit_type: UnitType) -> Candidate:
    mass = unit_type.max_gross.quantity
    return _candidate(
        "unit-maximum",
        "unit maximum",
        mass,
        f"maximum gross mass of {unit_type.code}: {mass}",
        [unit_type.max_gross],
        unit_type.place,
    )


def _position_limits(position: Position, unit_type: UnitType) -> Iterator[Candidate]:
    for key, word in ((unit_type.base.code, "base"), (unit_type.code, "type")):
        stated = position.max_mass.get(key)
        if stated is not None:
            yield _candidate(
                "position-limit",
                f"position limit for {word} {key}",
                stated.quantity,
                f"stated for {word} {key} in position {position.name}: {stated.quantity}",
                [stated],
                position.place,
            )


def _floor_limits(hold: Hold, position: Position, unit_type: UnitType) -> Iterator[Candidate]:
    """What the floor carries under the base; of a loose load, under the section that it covers."""
    base, floor, bay = unit_type.base, hold.floor, hold.bays[position.name]
    what = "section" if unit_type.loose else "base"
    if unit_type.loose:
        base = BaseSize("", extent(bay.rectangle.x), extent(bay.rectangle.y), place=bay.place)
    dimensions = Stated(base.length, base.source, base.place)
    if floor.running is not None:
        running = floor.running.quantity
        mass = _mass(running.si * base.length.si, running)
        yield _candidate(
            "running-load",
            "running load",
            mass,
            f"{running} × {what} length {base.length} = {shown(mass)}",
            [floor.running, dimensions],
        )
    if floor.area is not None and (floor.bears_on_floor or unit_type.loose):
        area = floor.area.quantity
        mass = _mass(area.si * base.length.si * base.width.si, area)
        yield _candidate(
            "area-load",
            "area load",
            mass,
            f"{area} × {what} {base.length} × {base.width} = {shown(mass)}",
            [floor.area, dimensions],
        )


def _restraint_limits(hold: Hold, position: Position) -> Iterator[Candidate]:
    """Rated loads of a direction, added up, over load factor times g0."""
    for direction, factor in _factors(hold):
        items = rated(hold, position, direction)
        if not items:
            continue
        ratings = [rating for _, rating in items]
        total = sum((rating.quantity.si for rating in ratings), Fraction(0))
        pounds = all(rating.quantity.unit.symbol == "lbf" for rating in ratings)
        mass = of(total / factor.quantity.si, "kg").to("lb" if pounds else "kg")
        added = " + ".join(f"{item.title} {rating.quantity}" for item, rating in items)
        yield _candidate(
            f"restraint-{direction}",
            f"restraint {direction}",
            mass,
            f"({added}) / {_acceleration(factor.quantity)} = {shown(mass)}",
            [*ratings, factor],
        )


def _acceleration(factor: Quantity) -> str:
    if factor.unit.symbol != "g":
        return str(factor)
    number = str(of(factor.value, "g")).removesuffix(" g")
    return f"({number} × 9.80665 m/s2)"


def _shared_limits(hold: Hold, position: Position, unit_type: UnitType) -> Iterator[Candidate]:
    """Limits on several units that one of this type, as heavy as it may be, would exceed alone.

    The load check reckons with the same rows. What one half may outweigh the other does not count here:
    a unit on the other side makes up for it.
    """
    gross = unit_type.max_gross.quantity
    alone = [placed(hold, unit_type, position.name, gross)]
    for limit in limits_of(hold):
        if isinstance(limit, AsymmetryLimit):
            continue
        counting = [row for row in rows(limit, alone) if row.parts[0] > 0]
        row = min(counting, key=lambda one: one.limit.quantity.si / one.parts[0], default=None)
        if row is not None and row.limit.quantity.si < gross.si * row.parts[0]:
            yield _shared(limit, row, hold)


def _shared(limit: LoadLimit, row: Row, hold: Hold) -> Candidate:
    """The mass at which one unit alone comes up to a limit on several."""
    part, stated = row.parts[0], row.limit
    written = stated.quantity.written or shown(stated.quantity)
    zone = hold.zones.get(limit.name)
    otherwise = zone.place if zone is not None else NOWHERE
    mass = stated.quantity if part == 1 else Quantity(stated.quantity.value / part, stated.quantity.unit)
    if isinstance(limit, RunningLimit):
        mass = _mass(stated.quantity.si / part, stated.quantity)
    if isinstance(limit, CombinedLimit) and limit.x is None and zone is not None:
        reckoning = f"all of {zone.title} ({', '.join(zone.positions)}) together: {written}"
    elif isinstance(limit, RunningLimit):
        reckoning = f"{row.where}: {written} × {shown(of(1 / part, 'm'))} of floor = {shown(mass)}"
    elif part == 1:
        reckoning = f"{row.where}: {written}" if row.where else f"stated: {written}"
    else:
        share = shown(of(part * 100, "%"))
        reckoning = f"{row.where or 'there'} stands {share} of it: {written} / {share} = {shown(mass)}"
    kind, title = _named(limit)
    return _candidate(kind, title, mass, reckoning, [stated], otherwise)


def _named(limit: LoadLimit) -> tuple[str, str]:
    """The kind and the title of the candidate that a limit on several units becomes."""
    match limit:
        case CombinedLimit():
            return f"zone-{limit.name}", f"combined limit of {limit.title}"
        case RunningLimit():
            return f"zone-running-{limit.name}", limit.title
        case PairLimit():
            return "-".join(("zone-pair", limit.name, *limit.positions)), limit.title
        case _:
            return f"cumulative-{limit.name}", f"cumulative limit of {limit.title}"


def _mass(kilograms: Fraction, written: Quantity) -> Quantity:
    """A mass in pounds where it derives from a limit written in pounds, else in kilograms."""
    return of(kilograms, "kg").to(mass_symbol(written))


def _candidate(
    kind: str,
    title: str,
    mass: Quantity,
    reckoning: str,
    stated: list[Stated],
    otherwise: Place = NOWHERE,
) -> Candidate:
    """A candidate with the sources and places of all it was reckoned from, each once.

    `otherwise` is the place of the record around a number that has no place of its own.
    """
    sources: dict[SourceRef, None] = dict.fromkeys(s.source for s in stated if s.source is not None)
    places = dict.fromkeys(s.place if s.place != NOWHERE else otherwise for s in stated)
    known = tuple(place for place in places if place != NOWHERE)
    return Candidate(kind, title, mass, reckoning, tuple(sources), known)
