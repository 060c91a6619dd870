"""Which unit types a position takes, as the rules see it."""

from __future__ import annotations

from procgen.model.hold import Hold, Position
from procgen.model.station import Network
from procgen.model.unit import BaseSize, UnitType
from procgen.units import of


def floor_under(hold: Hold, network: Network, position: str, code: str) -> BaseSize | None:
    """The floor that a key of a position's `max` stands for: a base size, that of a unit type; for a loose
    load the whole section.
    """
    if code in network.bases:
        return network.bases[code]
    unit_type = network.unit_types.get(code)
    if unit_type is None or not unit_type.loose:
        return unit_type.base if unit_type else None
    room, place = hold.bays[position].rectangle, hold.bays[position].place
    length, width = of(room.x.high.si - room.x.low.si, "m"), of(room.y.high.si - room.y.low.si, "m")
    return BaseSize(f"section {position}", length, width, place=place)


def types_of(network: Network, code: str) -> tuple[UnitType, ...]:
    """The unit types that a key of `max` stands for."""
    return tuple(
        unit_type
        for unit_type in network.unit_types.values()
        if code in (unit_type.code, unit_type.base.code)
    )


def why_not(hold: Hold, position: Position, unit_type: UnitType) -> str:
    """The first reason why a unit type does not go into a position; empty where it does."""
    base, room = unit_type.base, hold.bays[position.name].rectangle
    if hold.bays[position.name].bulk is not unit_type.loose:
        loose = "is a loose load, and the bay is not bulk"
        return f"{unit_type.code} {loose if unit_type.loose else 'is no loose load, and the bay is bulk'}"
    if base.code not in position.max_mass and unit_type.code not in position.max_mass:
        return f"{unit_type.code} {f'has base {base.code}, ' if base.code else ''}which `max` does not name"
    if position.contours and unit_type.contour not in position.contours:
        return f"{unit_type.code} has contour {unit_type.contour}"
    if unit_type.height > (position.height or hold.floor.height):
        return f"{unit_type.code} is {unit_type.height} high"
    if base.length.si > room.x.high.si - room.x.low.si or base.width.si > room.y.high.si - room.y.low.si:
        return f"{unit_type.code} is {base.length} by {base.width}, more than the bay"
    return ""
