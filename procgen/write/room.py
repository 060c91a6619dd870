"""Whether people have room behind a unit to push it: on the platform, in an empty bay, or on free floor.

A bay counts only where people get to it from a door, over empty bays: not past the unit itself.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from itertools import pairwise

from procgen.model.hold import Bay, Hold
from procgen.model.step import Push
from procgen.model.words import OUTSIDE, Travel
from procgen.write.standing import Standing, beyond, hops

ROOM = Fraction(6, 10)
"""How deep the floor must be, in metres, for somebody who leans on a unit (common practice, no source)."""

STEP = Fraction(1, 10)
"""How far apart, in metres, two bays lie at most that people step over from one to the other."""


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
        return behind in _reached(start, standing, hold)
    return _free_floor(start, go, hold) >= ROOM


def _reached(start: str, standing: Standing, hold: Hold) -> frozenset[str]:
    """The empty bays that people walk to from the doors, while the unit that is pushed stands in `start`."""
    taken = {bay for bay in hold.bays if bay == start or standing.unit_in(bay)}
    taken |= {shared for bay in taken for shared in hold.overlapping(bay)}
    queue = [name for name, bay in hold.bays.items() if bay.door is not None and name not in taken]
    found = set(queue)
    while queue:
        onward = hold.once(_beside)[queue.pop()] - taken - found
        found |= onward
        queue += sorted(onward)
    return frozenset(found)


def _beside(hold: Hold) -> Mapping[str, frozenset[str]]:
    """For each bay those that people step over to: neighbours in a lane, and what lies side by side."""
    found = {
        name: {other for other in hold.bays if other != name and _touch(bay, hold.bays[other])}
        for name, bay in hold.bays.items()
    }
    for lane in hold.lanes:
        for one, other in pairwise(lane.through):
            if one in found and other in found:
                found[one].add(other)
                found[other].add(one)
    return {name: frozenset(others) for name, others in found.items()}


def _touch(one: Bay, other: Bay) -> bool:
    """Whether two bays lie side by side with no more than a step between them."""
    mine, theirs = one.rectangle, other.rectangle
    gaps = [
        max(a.low.si, b.low.si) - min(a.high.si, b.high.si)
        for a, b in ((mine.x, theirs.x), (mine.y, theirs.y))
    ]
    return min(gaps) < 0 and max(gaps) <= STEP


def _free_floor(bay: str, go: Travel, hold: Hold) -> Fraction:
    """How much floor lies behind a bay up to the hold's end or wall, in metres."""
    own, floor = hold.bays[bay].rectangle, hold.floor.rectangle
    if go in (Travel.FORWARD, Travel.AFT):
        one, whole, back = own.x, floor.x, go is Travel.FORWARD
    else:
        one, whole, back = own.y, floor.y, (go is Travel.OUT) is (_side(bay, hold) == "left")
    return whole.high.si - one.high.si if back else one.low.si - whole.low.si


def _side(bay: str, hold: Hold) -> str:
    """The side of the door that a bay is reached from: its own door's, or that of the hold's first."""
    door = hold.doors.get(hold.bays[bay].door or "") or next(iter(hold.doors.values()), None)
    return str(door.side) if door is not None else "right"
