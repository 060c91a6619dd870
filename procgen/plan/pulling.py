"""Whether a unit that nobody can get behind is pulled instead, and with what.

People push a unit from the platform, from an empty bay behind it or from free floor at the end of a lane.
They get to the bay over empty ones, and not past the unit itself.
Where there is none of these as the run starts, they pull it, if it goes out through a door: they then stand
on the platform, past where it will come to rest. Nobody pulls from inside, in its path or with no way out.
The gear must bear the pull and be as long as the run. This is the planner's own reading and shares no code
with the simulator or with what puts steps into words.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from procgen.model.hand_moves import HandMoves
from procgen.model.hold import Hold
from procgen.model.unit import UnitType
from procgen.model.words import OUTSIDE, Side, Travel
from procgen.plan.machine import Hop, Machine, door_of
from procgen.plan.reach import reached_on_foot
from procgen.units import STANDARD_GRAVITY

DEPTH = Fraction(6, 10)
"""Metres of floor that somebody takes who leans on a unit (common practice, no source)."""


def gear_for(machine: Machine, unit: UnitType, hops: tuple[Hop, ...], occupied: Iterable[str]) -> str | None:
    """The pulling gear for a run by hand; None where the unit is pushed, if only with the supervisor's help.

    `occupied` are the bays of the other units. Of gear that will do, the first of the description is taken.
    """
    leave = machine.hold.hand_moves
    if leave is None or not leave.gear or hops[-1].end != OUTSIDE or _behind(machine, hops[0], occupied):
        return None
    length = _length(machine.hold, hops)
    if length is None:
        return None
    force = _force(leave, unit)
    return next(
        (
            name
            for name, gear in leave.gear.items()
            if gear.pull.quantity.si >= force and gear.length.si >= length
        ),
        None,
    )


def _force(leave: HandMoves, unit: UnitType) -> Fraction:
    """m g0 (c + t) in newtons, with the harder of starting and keeping moving."""
    weight = unit.max_gross.quantity.si * STANDARD_GRAVITY
    slope = leave.slope.quantity.si
    harder = max(leave.resistance_starting.quantity.si, leave.resistance_moving.quantity.si)
    return weight * (harder + slope)


def _length(hold: Hold, hops: tuple[Hop, ...]) -> Fraction | None:
    """From the far edge of the first bay to the outer face of the wall at the door; None without that."""
    name = door_of(hold, hops[-1])
    door = hold.doors[name] if name is not None else None
    if door is None or door.wall is None or hops[0].start not in hold.bays:
        return None
    bay, edge = hold.bays[hops[0].start].rectangle.y, hold.floor.rectangle.y
    far, sill = (bay.high.si, edge.low.si) if door.side is Side.LEFT else (bay.low.si, edge.high.si)
    return abs(sill - far) + door.wall.si


def _behind(machine: Machine, first: Hop, occupied: Iterable[str]) -> bool:
    """Whether people can stand behind a unit as it starts."""
    back = [hop.end for hop in machine.hops.get(first.start, ()) if hop.go is first.go.opposite]
    if OUTSIDE in back:
        return True
    reached = reached_on_foot(machine, frozenset(machine.hold.doors), [first.start, *occupied])
    if not reached.isdisjoint(back):
        return True
    return not back and _floor_behind(machine.hold, first) >= DEPTH


def _floor_behind(hold: Hold, first: Hop) -> Fraction:
    """Metres of floor between a bay and the end or the wall that lies behind a unit in it."""
    bay, floor = hold.bays[first.start].rectangle, hold.floor.rectangle
    if first.go is Travel.FORWARD:
        return floor.x.high.si - bay.x.high.si
    if first.go is Travel.AFT:
        return bay.x.low.si - floor.x.low.si
    name = door_of(hold, first) or hold.bays[first.start].door or next(iter(hold.doors), "")
    on_left = name in hold.doors and hold.doors[name].side is Side.LEFT
    low_side = on_left is (first.go is Travel.IN)
    return bay.y.low.si - floor.y.low.si if low_side else floor.y.high.si - bay.y.high.si
