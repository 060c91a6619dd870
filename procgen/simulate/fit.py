"""Whether a unit fits where it goes: base, door, height, contour, and what its position accepts."""

from __future__ import annotations

from procgen.model.hold import Bay, Door, Position
from procgen.model.unit import UnitType
from procgen.simulate.ledger import Sort
from procgen.simulate.names import called, listed
from procgen.simulate.scene import Hop, Scene
from procgen.simulate.work import Work


def check_fit(work: Work, unit: str, hops: tuple[Hop, ...], doing: str) -> None:
    """The first place where a unit does not fit is a finding, once for each unit."""
    unit_type = work.scene.type_of(unit)
    if unit_type is None or work.ledger.in_doubt(Sort.FIT, unit):
        return
    for hop in hops:
        reasons = _reasons(work.scene, unit, unit_type, hop, stands=hop is hops[-1])
        if reasons:
            bay = work.scene.hold.bays[hop.at_door if hop.through_door else hop.end]
            work.find(
                "unit-does-not-fit",
                f"{doing} {hop}, but {unit_type.code} {listed(reasons)}",
                suggestion="give the unit a type that fits, or another bay",
                against=bay.place,
                because=f"bay {bay.name}",
                unit=unit,
                bay=bay.name,
            )
            work.doubt(Sort.FIT, unit)
            return


def _reasons(scene: Scene, unit: str, unit_type: UnitType, hop: Hop, *, stands: bool) -> tuple[str, ...]:
    """`stands`: the unit comes to stand where the hop ends, and does not only pass."""
    reasons = _kind(scene, unit_type, hop) if stands else []
    if unit_type.loose:
        return (*reasons, *_at_its_position(scene, unit, unit_type, hop))
    if hop.through_door:
        doors = [scene.hold.doors[name] for name in scene.doors_at(hop.at_door)]
        by_door = [_door(door, unit_type) for door in doors]
        if by_door and all(by_door):
            reasons += by_door[0]
    bay = scene.hold.bays.get(hop.end)
    if bay is not None:
        position = scene.hold.positions.get(bay.name)
        reasons += _bay(bay, unit_type)
        reasons += _above(scene, position, unit_type)
    return (*reasons, *_at_its_position(scene, unit, unit_type, hop))


def _kind(scene: Scene, unit_type: UnitType, hop: Hop) -> list[str]:
    """Loose pieces lie in a bulk section, containers and pallets stand anywhere else."""
    bay = scene.hold.bays.get(hop.end)
    if bay is None or bay.bulk is unit_type.loose:
        return []
    if unit_type.loose:
        return [f"is a loose load, and {bay.name} is no bulk section"]
    return [f"is no loose load, and {bay.name} is a bulk section"]


def _at_its_position(scene: Scene, unit: str, unit_type: UnitType, hop: Hop) -> list[str]:
    position, planned = scene.hold.positions.get(hop.end), scene.planned(unit)
    if position is None or planned is None or planned.bay != position.name:
        return []
    return _accepted(position, unit_type)


def _door(door: Door, unit_type: UnitType) -> list[str]:
    reasons: list[str] = []
    if unit_type.base.length > door.clear_width:
        length = unit_type.base.length
        reasons.append(f"is {length} long, more than the clear width of {called(door)}, {door.clear_width}")
    if unit_type.height > door.clear_height:
        reasons.append(
            f"is {unit_type.height} high, more than the clear height of {called(door)}, {door.clear_height}"
        )
    return reasons


def _bay(bay: Bay, unit_type: UnitType) -> list[str]:
    x, y = bay.rectangle.x, bay.rectangle.y
    reasons: list[str] = []
    if unit_type.base.length.si > x.high.si - x.low.si:
        reasons.append(f"is {unit_type.base.length} long, too long for bay {bay.name} ({x.low} to {x.high})")
    if unit_type.base.width.si > y.high.si - y.low.si:
        reasons.append(f"is {unit_type.base.width} wide, too wide for bay {bay.name} ({y.low} to {y.high})")
    return reasons


def _above(scene: Scene, position: Position | None, unit_type: UnitType) -> list[str]:
    """What is above the floor there: the clear height, and the contour."""
    height, where = scene.hold.floor.height, "the hold"
    if position is not None and position.height is not None and position.height < height:
        height, where = position.height, position.name
    reasons: list[str] = []
    if unit_type.height > height:
        reasons.append(f"is {unit_type.height} high, more than {where} takes, {height}")
    if position is not None and position.contours and unit_type.contour not in position.contours:
        takes = listed(position.contours)
        reasons.append(f"has contour {unit_type.contour}, where {position.name} takes {takes}")
    return reasons


def _accepted(position: Position, unit_type: UnitType) -> list[str]:
    """A position takes the base sizes and unit types that it gives a maximum mass for."""
    if unit_type.code in position.max_mass or unit_type.base.code in position.max_mass:
        return []
    return [f"is not among what {position.name} takes ({', '.join(position.max_mass)})"]
