"""Whether people have room behind a unit to push it: on the platform, in an empty bay, or on free floor."""

from __future__ import annotations

from fractions import Fraction

from procgen.model.hold import Hold
from procgen.model.step import Push
from procgen.model.words import OUTSIDE, Travel
from procgen.write.standing import Standing, beyond, hops

ROOM = Fraction(6, 10)
"""How deep the floor must be, in metres, for somebody who leans on a unit (common practice, no source)."""


def has_room_behind(step: Push, standing: Standing, hold: Hold) -> bool:
    """Whether somebody can stand behind a unit where its push starts; so too where the way is not known."""
    way = hops(step.through, hold)
    go = way[0].go if way else None
    start = step.through[0] if step.through else OUTSIDE
    if go is None or start not in hold.bays:
        return True
    behind = beyond(start, go.opposite, hold)
    if behind == OUTSIDE:
        return True
    if behind in hold.bays:
        places = (behind, *sorted(hold.overlapping(behind) - {start}))
        if not any(standing.unit_in(place) for place in places):
            return True
    return _free_floor(start, go, hold) >= ROOM


def _free_floor(bay: str, go: Travel, hold: Hold) -> Fraction:
    """How much floor lies behind a bay up to the hold's end or wall, in metres; 0 where another bay lies."""
    own, floor = hold.bays[bay].rectangle, hold.floor.rectangle
    if go in (Travel.FORWARD, Travel.AFT):
        one, whole, back = own.x, floor.x, go is Travel.FORWARD
    else:
        one, whole, back = own.y, floor.y, (go is Travel.OUT) is (_side(bay, hold) == "left")
    if beyond(bay, go.opposite, hold) in hold.bays:
        return Fraction(0)
    return whole.high.si - one.high.si if back else one.low.si - whole.low.si


def _side(bay: str, hold: Hold) -> str:
    """The side of the door that a bay is reached from: its own door's, or that of the hold's first."""
    door = hold.doors.get(hold.bays[bay].door or "") or next(iter(hold.doors.values()), None)
    return str(door.side) if door is not None else "right"
