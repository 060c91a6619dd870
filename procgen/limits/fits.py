"""Whether a unit type can stand in a bay at all, and if not, every reason why."""

from __future__ import annotations

from procgen.model.hold import Bay, Door, Hold, Position
from procgen.model.stated import Span1
from procgen.model.unit import UnitType
from procgen.model.words import OUTSIDE
from procgen.units import Quantity, of


def unit_fits(hold: Hold, bay: str, unit_type: UnitType) -> tuple[str, ...]:
    """Every reason why this unit type cannot stand in this bay; empty when it can.

    Looked at: whether it is loose and the bay a bulk section (where the two differ nothing else counts), the
    base against the bay, the height against the clear height of the hold and of the position, the contour and
    the base size or type against what the position lists, and the door: the unit keeps its heading, so its
    base length passes the door's clear width. Of several doors one is enough.
    """
    one = hold.bays[bay]
    if one.bulk is not unit_type.loose:
        wrong = "it is no loose load; the bay is loaded by hand, piece by piece"
        return ("it is a loose load; the bay takes containers and pallets" if unit_type.loose else wrong,)
    reasons = [*_base(one, unit_type), *_height(hold, unit_type), *_doors(hold, bay, unit_type)]
    position = hold.positions.get(bay)
    if position is not None:
        reasons += _position(position, unit_type)
    return tuple(reasons)


def _base(bay: Bay, unit_type: UnitType) -> list[str]:
    base, reasons = unit_type.base, []
    for size, word, span in (
        (base.length, "long", bay.rectangle.x),
        (base.width, "wide", bay.rectangle.y),
    ):
        room = extent(span)
        if size > room:
            reasons.append(f"its base {base.code} is {size} {word}; the bay is {room} {word}")
    return reasons


def _height(hold: Hold, unit_type: UnitType) -> list[str]:
    if unit_type.height <= hold.floor.height:
        return []
    return [f"it is {unit_type.height} high; the hold has {hold.floor.height} of clear height"]


def _position(position: Position, unit_type: UnitType) -> list[str]:
    reasons = []
    if position.height is not None and unit_type.height > position.height:
        reasons.append(f"it is {unit_type.height} high; the position allows {position.height}")
    if position.contours and unit_type.contour not in position.contours:
        allowed = ", ".join(position.contours)
        reasons.append(f"its contour is {unit_type.contour}; the position takes contour {allowed}")
    if not {unit_type.base.code, unit_type.code} & set(position.max_mass):
        listed = ", ".join(position.max_mass) or "none"
        neither = (
            "not its type" if unit_type.loose else f"neither its base {unit_type.base.code} nor its type"
        )
        reasons.append(f"the position lists {neither} (listed: {listed})")
    return reasons


def _doors(hold: Hold, bay: str, unit_type: UnitType) -> list[str]:
    """Why it passes none of the doors that lead to this bay; empty when one lets it through."""
    doors = doors_to(hold, bay)
    if not doors:
        return ["no lane leads to it from a door"]
    refused = [_refusal(door, unit_type) for door in doors]
    return [] if any(reason == "" for reason in refused) else refused


def _refusal(door: Door, unit_type: UnitType) -> str:
    if unit_type.base.length > door.clear_width:
        return f"its base is {unit_type.base.length} long; the {door.title} is {door.clear_width} wide"
    if unit_type.height > door.clear_height:
        return f"it is {unit_type.height} high; the {door.title} is {door.clear_height} high"
    return ""


def doors_to(hold: Hold, bay: str) -> tuple[Door, ...]:
    """The doors from which lanes lead to this bay, in the order of the description."""
    hops = [hop for lane in hold.lanes for hop in zip(lane.through, lane.through[1:], strict=False)]
    neighbours: dict[str, list[str]] = {}
    for near, far in hops:
        neighbours.setdefault(near, []).append(far)
        neighbours.setdefault(far, []).append(near)
    reached, queue = {bay}, [bay]
    while queue:
        onward = [place for place in neighbours.get(queue.pop(), []) if place not in reached | {OUTSIDE}]
        reached.update(onward)
        queue += onward
    sills = reached & set(neighbours.get(OUTSIDE, []))
    names = {hold.bays[name].door for name in sills if name in hold.bays}
    return tuple(door for name, door in hold.doors.items() if name in names)


def extent(span: Span1) -> Quantity:
    """The length of an interval, in the unit its high end is written in."""
    return (of(span.high.si - span.low.si, "m")).to(span.high.unit.symbol)
