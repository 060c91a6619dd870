"""The ways through a hold, as the rules see them: hops, directions, what stands where."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from procgen.diagnostics import Place
from procgen.model.hold import Hold, Lane, Restraint
from procgen.model.stated import Span1
from procgen.model.words import OUTSIDE, LoadDirection, RestraintState, Side, Travel


@dataclass(frozen=True, slots=True)
class Hop:
    """A move from one place of a lane to the next one; `place` is where the lane names the latter."""

    start: str
    end: str
    go: Travel
    place: Place


def lane_hops(hold: Hold) -> Iterator[Hop]:
    """Every hop of every lane in the lane's own direction."""
    for lane in hold.lanes:
        yield from hops_of(lane)


def all_hops(hold: Hold) -> Iterator[Hop]:
    """Every hop of every lane, there and back."""
    for hop in lane_hops(hold):
        yield hop
        yield Hop(hop.end, hop.start, hop.go.opposite, hop.place)


def bays_on_lanes(hold: Hold) -> frozenset[str]:
    """Every bay that some lane runs through."""
    return frozenset(name for lane in hold.lanes for name in lane.through if name != OUTSIDE)


def reachable(hold: Hold) -> frozenset[str]:
    """Every bay to which some chain of lanes leads from outside."""
    found, edge = {OUTSIDE}, [OUTSIDE]
    neighbours: dict[str, list[str]] = {}
    for hop in all_hops(hold):
        neighbours.setdefault(hop.start, []).append(hop.end)
    while edge:
        for bay in neighbours.get(edge.pop(), ()):
            if bay not in found:
                found.add(bay)
                edge.append(bay)
    return frozenset(found - {OUTSIDE})


def door_side(hold: Hold, places: tuple[str, ...]) -> Side | None:
    """The side of the door that `places` lie at or are reached by; None where that is not clear."""
    sides = {hold.doors[door].side for name in places if (door := _door(hold, name)) is not None}
    if not sides:
        sides = {door.side for door in hold.doors.values()}
    return next(iter(sides)) if len(sides) == 1 else None


def _door(hold: Hold, name: str) -> str | None:
    bay = hold.bays.get(name)
    return bay.door if bay else None


def pressed_in(hold: Hold, go: Travel, places: tuple[str, ...]) -> LoadDirection | None:
    """The direction in the aircraft of a travel between `places`; None where the door's side is not clear."""
    if go is Travel.FORWARD:
        return LoadDirection.FORWARD
    if go is Travel.AFT:
        return LoadDirection.AFT
    side = door_side(hold, places)
    if side is None:
        return None
    to_the_door = LoadDirection.RIGHT if side is Side.RIGHT else LoadDirection.LEFT
    from_the_door = LoadDirection.LEFT if side is Side.RIGHT else LoadDirection.RIGHT
    return from_the_door if go is Travel.IN else to_the_door


def travel_between(hold: Hold, start: str, end: str) -> Travel | None:
    """The direction of the hop from `start` to `end`, if a lane has it either way."""
    return next((hop.go for hop in all_hops(hold) if (hop.start, hop.end) == (start, end)), None)


def stands_at(item: Restraint, bay: str) -> bool:
    """Whether a restraint stands between this bay and a neighbour, or beside it."""
    return bay in item.beside or (item.between is not None and bay in item.between)


def standing_at(hold: Hold, bay: str) -> Mapping[str, Restraint]:
    """The restraints that stand at a bay, by name, in the order of the description."""
    return {name: item for name, item in hold.restraints.items() if stands_at(item, bay)}


def stands_on_lane(hold: Hold, item: Restraint) -> bool:
    """Whether a restraint stands beside bays, or between two that a lane joins: where it says it stands."""
    return item.between is None or travel_between(hold, *item.between) is not None


def stands_elsewhere(hold: Hold, item: Restraint, position: str) -> bool:
    """Whether a restraint stands where it says, and that is at no bay that shares floor with a position."""
    here = {position, *hold.overlapping(position)}
    return stands_on_lane(hold, item) and not any(stands_at(item, bay) for bay in here)


def bays_astray(hold: Hold) -> frozenset[str]:
    """The bays of lanes that run the wrong way: of these nobody can tell what stands between which."""
    return frozenset(bay for lane in hold.lanes if first_wrong_hop(hold, lane) for bay in lane.through)


def can_be_left(item: Restraint, state: RestraintState) -> bool:
    """Whether somebody can leave a restraint in `state`, without holding a control meanwhile."""
    if item.fixed:
        return state is RestraintState.RAISED
    return item.by_hand or item.at_rest is state


def hops_of(lane: Lane) -> Iterator[Hop]:
    """The hops of one lane in its own direction."""
    for index, (start, end) in enumerate(zip(lane.through, lane.through[1:], strict=False), start=1):
        yield Hop(start, end, lane.go, lane.place.child("through", index))


def first_wrong_hop(hold: Hold, lane: Lane) -> Hop | None:
    """The first hop between bays that does not lead where the lane says it goes."""
    for hop in hops_of(lane):
        if OUTSIDE in (hop.start, hop.end):
            continue
        start, end = hold.bays[hop.start].rectangle, hold.bays[hop.end].rectangle
        pressed = pressed_in(hold, hop.go, lane.through)
        if pressed is None:
            continue
        if pressed in (LoadDirection.FORWARD, LoadDirection.AFT):
            gain = _twice_the_middle(end.x) - _twice_the_middle(start.x)
        else:
            gain = _twice_the_middle(end.y) - _twice_the_middle(start.y)
        if pressed in (LoadDirection.FORWARD, LoadDirection.LEFT):
            gain = -gain
        if gain <= 0:
            return hop
    return None


def _twice_the_middle(span: Span1) -> Fraction:
    return span.low.si + span.high.si
