"""What the restraints of a position hold, as the rules reckon it."""

from __future__ import annotations

from fractions import Fraction

from procgen.lint.lanes import pressed_in, travel_between
from procgen.model.hold import Hold, Restraint
from procgen.model.words import OUTSIDE, LoadDirection, Travel
from procgen.units import Quantity, of


def unrestrained(hold: Hold, position: str) -> tuple[LoadDirection, ...]:
    """The directions with a load factor in which nothing that holds this position is rated."""
    items = [hold.restraints[name] for name in hold.positions[position].held_by]
    return tuple(
        direction
        for direction in LoadDirection
        if direction in hold.load_factors.by_direction
        and hold.load_factors.by_direction[direction].quantity.si > 0
        and not any(direction in item.rating and counts(hold, item, position, direction) for item in items)
    )


def mass_held(hold: Hold, position: str, direction: LoadDirection) -> Quantity | None:
    """The mass that the restraints of a position hold in `direction`, in kg: sum of ratings / factor.

    None where there is no load factor or nothing is rated. The load factor's SI value is an acceleration,
    n times standard gravity.
    """
    factor = hold.load_factors.by_direction.get(direction)
    items = [hold.restraints[name] for name in hold.positions[position].held_by]
    rated = sum(
        (
            item.rating[direction].quantity.si
            for item in items
            if direction in item.rating and counts(hold, item, position, direction)
        ),
        Fraction(),
    )
    if factor is None or factor.quantity.si <= 0 or rated == 0:
        return None
    return of(rated / factor.quantity.si, "kg")


def counts(hold: Hold, item: Restraint, position: str, direction: LoadDirection) -> bool:
    """Whether a rating in `direction` counts for a unit in this position.

    It does not where the unit would move straight away from a restraint that does not grip it.
    """
    if _grips(hold, item, position) or direction is LoadDirection.UP:
        return True
    towards = _stands_towards(hold, item, position)
    return towards is None or direction is not _BACK[towards]


def holds_towards(hold: Hold, item: Restraint, position: str) -> bool:
    """Whether a restraint at a position is rated in a direction in which it holds a unit there."""
    if item.between is None:
        return bool(item.rating)
    if LoadDirection.UP in item.rating or _grips(hold, item, position):
        return True
    towards = _stands_towards(hold, item, position)
    return towards is None or towards in item.rating


def _grips(hold: Hold, item: Restraint, position: str) -> bool:
    """Whether it holds a unit's base both ways; loose pieces in a bulk section have none."""
    return item.grips and not hold.bays[position].bulk


_BACK = {
    LoadDirection.FORWARD: LoadDirection.AFT,
    LoadDirection.AFT: LoadDirection.FORWARD,
    LoadDirection.LEFT: LoadDirection.RIGHT,
    LoadDirection.RIGHT: LoadDirection.LEFT,
}


def _stands_towards(hold: Hold, item: Restraint, position: str) -> LoadDirection | None:
    """Which way one looks from a position to a restraint; None where the description does not tell."""
    at = _place_at(hold, item, position)
    if item.between is not None and at is not None:
        other = item.between[1] if item.between[0] == at else item.between[0]
        go = Travel.OUT if other == OUTSIDE else travel_between(hold, at, other)
        return pressed_in(hold, go, (at, other)) if go else None
    here = hold.bays[position].rectangle
    for name in item.beside:
        there = hold.bays[name].rectangle
        if there.x.low < here.x.high and here.x.low < there.x.high:
            if here.y.high <= there.y.low:
                return LoadDirection.RIGHT
            if there.y.high <= here.y.low:
                return LoadDirection.LEFT
    return None


def _place_at(hold: Hold, item: Restraint, position: str) -> str | None:
    """The one of two places that a unit in a position stands at: its bay, or the one that it also covers."""
    if item.between is None:
        return None
    if position in item.between:
        return position
    covered = [place for place in item.between if place in hold.overlapping(position)]
    return covered[0] if len(covered) == 1 else None
