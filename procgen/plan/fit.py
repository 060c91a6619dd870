"""Which unit fits where, in the planner's own reading, and the choice of a unit type for each position."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from procgen.model.hold import Door, Hold
from procgen.model.step import PlannedUnit
from procgen.model.unit import UnitType


def misfit_in_bay(hold: Hold, bay: str, unit: UnitType) -> tuple[str, ...]:
    """Why a unit cannot stand in a bay or pass through it: base, height, contour. Empty: it can.

    Loose pieces are carried through any bay; a bulk section takes nothing else.
    """
    if unit.loose:
        return ()
    if hold.bays[bay].bulk:
        return (f"{bay} is a bulk section, for loose loads only",)
    area = hold.bays[bay].rectangle
    reasons = []
    if unit.base.length.si > area.x.high.si - area.x.low.si:
        reasons.append(f"its base is {unit.base.length} along the hold, more than bay {bay} has")
    if unit.base.width.si > area.y.high.si - area.y.low.si:
        reasons.append(f"its base is {unit.base.width} across the hold, more than bay {bay} has")
    position = hold.positions.get(bay)
    clear = position.height if position and position.height else hold.floor.height
    if unit.height > clear:
        reasons.append(f"it is {unit.height} high, {bay} takes {clear}")
    if position and position.contours and unit.contour not in position.contours:
        reasons.append(f"its contour is {unit.contour}, {bay} takes {', '.join(position.contours)}")
    return tuple(reasons)


def misfit_at_door(door: Door, unit: UnitType) -> tuple[str, ...]:
    """Why a unit does not pass a door: it goes through with its length across the opening."""
    if unit.loose:
        return ()
    reasons = []
    if unit.base.length > door.clear_width:
        reasons.append(f"its base is {unit.base.length} long, the {door.title} is {door.clear_width} wide")
    if unit.height > door.clear_height:
        reasons.append(f"it is {unit.height} high, the {door.title} is {door.clear_height} high")
    return tuple(reasons)


def misfit_at_position(hold: Hold, position: str, unit: UnitType) -> tuple[str, ...]:
    """Why a unit type is not acceptable in a loading position. Empty: it is."""
    reasons = list(misfit_in_bay(hold, position, unit))
    if unit.loose and not hold.bays[position].bulk:
        reasons.append(f"it is loaded piece by piece and {position} is no bulk section")
    limits = hold.positions[position].max_mass
    if limits and unit.code not in limits and unit.base.code not in limits:
        what = unit.code if unit.loose else f"base {unit.base.code}"
        reasons.append(f"{position} states no limit for {what}")
    at_doors = [misfit_at_door(door, unit) for door in hold.doors.values()]
    if at_doors and all(at_doors):
        reasons.extend(at_doors[0])
    return tuple(reasons)


def choose_units(
    hold: Hold, unit_types: Mapping[str, UnitType], positions: Sequence[str] | None = None
) -> Mapping[str, PlannedUnit]:
    """One unit for each position: `u` and the position's name, the first type in declared order that fits.

    Without `positions` every position of the hold is taken, save one that overlaps a position before it.
    Where no type fits, the first type is named all the same, so that `plan` can say why it does not.
    """
    wanted = list(positions) if positions is not None else _side_by_side(hold, hold.positions)
    chosen: dict[str, PlannedUnit] = {}
    for position in wanted:
        known = position in hold.positions and position in hold.bays
        fitting = [
            code
            for code, unit in unit_types.items()
            if known and not misfit_at_position(hold, position, unit)
        ]
        code = next(iter(fitting), next(iter(unit_types), ""))
        place = hold.positions[position].place if known else hold.place
        chosen[f"u{position}"] = PlannedUnit(f"u{position}", code, position, place)
    return chosen


def other_layouts(hold: Hold) -> tuple[tuple[str, ...], ...]:
    """The positions that `choose_units` leaves out because they share floor, in layouts of their own."""
    chosen = _side_by_side(hold, hold.positions)
    left, layouts = [position for position in hold.positions if position not in chosen], []
    while left:
        layout = _side_by_side(hold, left)
        layouts.append(tuple(layout))
        left = [position for position in left if position not in layout]
    return tuple(layouts)


def _side_by_side(hold: Hold, positions: Iterable[str]) -> list[str]:
    taken: list[str] = []
    for position in positions:
        shared = hold.overlapping(position) if position in hold.bays else frozenset()
        if not shared.intersection(taken):
            taken.append(position)
    return taken
