"""Which way a restraint holds a unit: towards itself, unless it grips the base."""

from __future__ import annotations

from fractions import Fraction

from procgen.model.hold import Hold, Position, Restraint
from procgen.model.stated import Rectangle, Span1
from procgen.model.words import OUTSIDE, LoadDirection, Side

_AWAY = {
    LoadDirection.FORWARD: LoadDirection.AFT,
    LoadDirection.AFT: LoadDirection.FORWARD,
    LoadDirection.LEFT: LoadDirection.RIGHT,
    LoadDirection.RIGHT: LoadDirection.LEFT,
}


def engaged(hold: Hold, position: Position, item: Restraint, direction: LoadDirection) -> bool:
    """Whether a unit in this position that goes in `direction` is held by this restraint.

    False only for the direction straight away from a restraint that stands on one known side of the unit
    and does not grip it.
    """
    grips = item.grips and not hold.bays[position.name].bulk  # loose pieces have no base to grip
    if grips or direction is LoadDirection.UP:
        return True
    side = side_of(hold, position, item)
    return side is None or _AWAY[side] is not direction


def side_of(hold: Hold, position: Position, item: Restraint) -> LoadDirection | None:
    """On which side of the unit a restraint stands; None where the description leaves it open.

    Known for one between two places of which one is this bay or, for a unit over several rows, shares floor
    with it and the other does not; and for one beside two bays that lie abreast.
    """
    here = hold.bays[position.name]
    ends = _ends(hold, position.name, item)
    if ends is not None:
        near, far = ends
        if far != OUTSIDE:
            return _towards(here.rectangle, hold.bays[far].rectangle)
        door = hold.doors.get(hold.bays[near].door or "")
        if door is None:
            return None
        return LoadDirection.RIGHT if door.side is Side.RIGHT else LoadDirection.LEFT
    for name in item.beside:
        other_bay = hold.bays[name].rectangle
        if _apart(here.rectangle.y, other_bay.y) and not _apart(here.rectangle.x, other_bay.x):
            return _towards(here.rectangle, other_bay)
    return None


def _ends(hold: Hold, position: str, item: Restraint) -> tuple[str, str] | None:
    """The place at this position and the one beyond that a restraint stands between, where that is clear."""
    if item.between is None:
        return None
    one, other = item.between
    if position in item.between:
        return (one, other) if one == position else (other, one)
    under = [place for place in item.between if place in hold.overlapping(position)]
    if len(under) != 1:
        return None
    return (one, other) if one == under[0] else (other, one)


def _towards(here: Rectangle, there: Rectangle) -> LoadDirection:
    along = _middle(there.x) - _middle(here.x)
    across = _middle(there.y) - _middle(here.y)
    if abs(along) >= abs(across):
        return LoadDirection.AFT if along > 0 else LoadDirection.FORWARD
    return LoadDirection.RIGHT if across > 0 else LoadDirection.LEFT


def _middle(span: Span1) -> Fraction:
    return (span.low.si + span.high.si) / 2


def _apart(one: Span1, other: Span1) -> bool:
    return one.high.si <= other.low.si or other.high.si <= one.low.si
