"""A given load against every limit of its hold (limits.md, sections 1 and 2)."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from procgen.diagnostics import NOWHERE
from procgen.limits.candidates import rated
from procgen.limits.described import limits_of
from procgen.limits.positions import position_cell
from procgen.limits.zones import check_load, placed
from procgen.model.hold import Hold
from procgen.model.unit import UnitType
from procgen.model.words import LoadDirection
from procgen.results.limits import Candidate
from procgen.results.load_check import CountedInFull, GivenUnit, LoadCheck, Refused
from procgen.results.uses import Use
from procgen.units import Quantity


def check_given(hold: Hold, unit_types: Mapping[str, UnitType], units: Sequence[GivenUnit]) -> LoadCheck:
    """Every constraint on a load of this hold, with the unit's own limits first.

    Positions and unit types are ones that the hold and the fleet have. A unit that its position does not
    accept, that stands where another one stands, or that is lighter than empty, is refused; it still counts
    with its mass.
    """
    own: list[Use] = []
    others: list[tuple[Use, ...]] = []
    refused: list[Refused] = []
    for index, unit in enumerate(units):
        cell = position_cell(hold, hold.positions[unit.position], unit_types[unit.unit_type])
        taken = [
            f"{other.position} shares its floor"
            for other in units[:index]
            if other.position in hold.overlapping(unit.position)
        ]
        reasons = (*cell.reasons, *taken, *_too_light(unit, unit_types[unit.unit_type]))
        if reasons:
            refused.append(Refused(unit, reasons))
        if cell.governing is not None:
            own.append(_own(unit, cell.governing))
            others.append(tuple(_candidate(unit, one) for one in cell.candidates[1:]))
    stand = [placed(hold, unit_types[unit.unit_type], unit.position, unit.mass) for unit in units]
    together = check_load(stand, limits_of(hold))
    full = tuple(counted_in_full(hold, [unit.position for unit in units]))
    return LoadCheck(hold.name, tuple(units), tuple(own), together, tuple(refused), tuple(others), full)


def counted_in_full(hold: Hold, positions: Sequence[str]) -> Iterator[CountedInFull]:
    """Every restraint that holds units in several of these positions the same way, where the hold has a load
    factor: its rating counts in full for each of them, and no sum of them is checked but by a zone.
    """
    for item in hold.restraints.values():
        by_positions: dict[tuple[str, ...], list[LoadDirection]] = {}
        for direction in LoadDirection:
            if direction not in hold.load_factors.by_direction:
                continue
            held = tuple(
                name
                for name in dict.fromkeys(positions)
                if any(one is item for one, _ in rated(hold, hold.positions[name], direction))
            )
            if len(held) > 1:
                by_positions.setdefault(held, []).append(direction)
        for held, directions in by_positions.items():
            ratings = [item.rating[direction] for direction in directions]
            sources = dict.fromkeys(one.source for one in ratings if one.source is not None)
            places = dict.fromkeys(one.place for one in ratings if one.place != NOWHERE)
            yield CountedInFull(item.name, item.title, tuple(directions), held, tuple(sources), tuple(places))


def _too_light(unit: GivenUnit, unit_type: UnitType) -> Iterator[str]:
    """A gross mass that the empty unit exceeds is a slip: nobody knows then what stands there."""
    if unit_type.tare is not None and unit.mass < unit_type.tare.quantity:
        yield f"{unit.mass} is less than it weighs empty ({unit_type.tare.quantity}): give the gross mass"


def _own(unit: GivenUnit, governing: Candidate) -> Use:
    limit = governing.mass
    return Use(
        kind="position",
        title=f"position {unit.position}",
        used=Quantity(unit.mass.si / limit.unit.factor, limit.unit),
        limit=limit,
        reckoning=f"{unit.mass} of {unit.unit_type}; {governing.title}: {governing.reckoning}",
        sources=governing.sources,
        places=governing.places,
    )


def _candidate(unit: GivenUnit, one: Candidate) -> Use:
    """A candidate above the one that governs, and how far the unit uses it."""
    mass = Quantity(unit.mass.si / one.mass.unit.factor, one.mass.unit)
    return Use(one.kind, one.title, mass, one.mass, one.reckoning, one.sources, one.places)
