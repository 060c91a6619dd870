"""How the hold stands at a step, as far as words need it: the writer's own small bookkeeping.

It follows the steps of a procedure and believes them; whether they are allowed is not its business.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from procgen.model.hold import Hold, Restraint
from procgen.model.step import (
    Check,
    Close,
    Drive,
    Fit,
    Lower,
    Open,
    Present,
    Procedure,
    Push,
    Raise,
    Remove,
    SetControl,
    Step,
    Stow,
)
from procgen.model.words import OUTSIDE, Failure, Operation, RestraintState, Stand, Travel
from procgen.results.state import State
from procgen.write.matching import stand

PATH_CLEAR = "path-clear"
PEOPLE_OUT = (PATH_CLEAR, "everyone-out")
"""The checks after which nobody is in the hold."""


@dataclass(frozen=True, slots=True)
class Standing:
    """Restraints up or down, controls as they were set, units by bay, whether somebody is inside.

    `came_from` is the place that a moved unit passed last before it arrived.
    """

    raised: frozenset[str]
    controls: Mapping[str, str]
    units: Mapping[str, str]
    inside: bool = False
    came_from: Mapping[str, str] = field(default_factory=dict)

    def unit_in(self, bay: str) -> str:
        """The unit that stands in a bay; empty if none does."""
        return next((unit for unit, where in self.units.items() if where == bay), "")


@dataclass(frozen=True, slots=True)
class Hop:
    """One move from a place to its neighbour; `go` is None where no lane leads so."""

    start: str
    end: str
    go: Travel | None


def standing_at_start(procedure: Procedure, hold: Hold) -> Standing:
    """The hold closed and at rest, with the units aboard secured in their bays as far as all works."""
    units = {unit.name: unit.bay for unit in procedure.aboard.values()}
    if procedure.operation is Operation.UNLOADING:
        units.update((unit.name, unit.bay) for unit in procedure.units.values())
    raised = {name for name, item in hold.restraints.items() if item.at_start is RestraintState.RAISED}
    for bay in units.values():
        raised.update(hold.positions[bay].held_by if bay in hold.positions else ())
    for one in procedure.out_of_service:
        raised.discard(one.item)
        raised.update({one.item} if one.failure is Failure.UP else ())
    controls = {name: control.rest for name, control in hold.controls.items()}
    return Standing(frozenset(raised), controls, units)


def standing_in(state: State) -> Standing:
    """The hold as it stands in a state."""
    stands = {**state.restraints, **state.stuck}
    return Standing(
        raised=frozenset(name for name, how in stands.items() if how is RestraintState.RAISED),
        controls=state.controls,
        units={unit: bay for unit, bay in state.units.items() if bay != OUTSIDE},
        inside=state.inside,
    )


def after(standing: Standing, step: Step, hold: Hold) -> Standing:
    """How the hold stands when the step is done."""
    if stand(step, hold) is Stand.INSIDE:
        standing = replace(standing, inside=True)
    match step:
        case Raise(item) | Fit(item):
            return replace(standing, raised=standing.raised | {item})
        case Lower(item) | Remove(item):
            return replace(standing, raised=standing.raised - {item})
        case SetControl(control, position):
            return replace(standing, controls={**standing.controls, control: position})
        case Present(unit):
            return replace(standing, units={**standing.units, unit: OUTSIDE})
        case Drive(unit, held, through):
            return _moved(standing, unit, held, through, hold)
        case Push(unit, _, through, held):
            return _moved(standing, unit, held, through, hold)
        case Stow(unit, _, through):
            return replace(_moved(standing, unit, {}, through, hold), inside=True)
        case Check(condition) if condition in PEOPLE_OUT:
            return replace(standing, inside=False)
        case _:
            return standing


def last_inside(steps: Sequence[Step], hold: Hold) -> frozenset[int]:
    """The hand actions inside after which people come out: the last ones before a check that they are out.

    They come out in the same breath and not when the check is made: a block that ends here, and may be
    interrupted here, leaves nobody in the hold.
    """
    found: set[int] = set()
    latest: int | None = None
    for index, step in enumerate(steps):
        if isinstance(step, Stow) or stand(step, hold) is Stand.INSIDE:
            latest = index
        elif isinstance(step, Check) and step.condition in PEOPLE_OUT and latest is not None:
            found.add(latest)
            latest = None
    return frozenset(found)


def next_move_by_hand(steps: Sequence[Step], index: int) -> bool:
    """Whether the next unit that moves, from this step on, is pushed; False where none is or none moves."""
    following = next((step for step in steps[index:] if isinstance(step, (Drive, Push))), None)
    return isinstance(following, Push) and following.gear is None


def next_closed(steps: Sequence[Step], index: int, hold: Hold) -> str:
    """The door that is closed next, from this step on; empty where none is."""
    closed = (step.target for step in steps[index:] if isinstance(step, Close))
    return next((target for target in closed if target in hold.doors), "")


def next_door(steps: Sequence[Step], index: int, hold: Hold) -> str:
    """The door that is opened or closed next, from this step on; empty where none is."""
    worked = (step.target for step in steps[index:] if isinstance(step, Open | Close))
    return next((target for target in worked if target in hold.doors), "")


def _moved(
    standing: Standing, unit: str, held: Mapping[str, str], through: Sequence[str], hold: Hold
) -> Standing:
    down = {item.name for item in overridden(standing, held, through, hold) if not item.returns_by_spring}
    units = dict(standing.units)
    if through:
        units[unit] = through[-1]
    if units.get(unit) == OUTSIDE:
        del units[unit]
    came_from = {**standing.came_from, unit: through[-2]} if len(through) > 1 else standing.came_from
    return replace(standing, raised=standing.raised - down, units=units, came_from=came_from)


def hops(through: Sequence[str], hold: Hold) -> tuple[Hop, ...]:
    """The moves along a way, each with its direction of travel."""
    return tuple(Hop(start, end, _direction(start, end, hold)) for start, end in pairwise(through))


def _direction(start: str, end: str, hold: Hold) -> Travel | None:
    for lane in hold.lanes:
        for pair in pairwise(lane.through):
            if pair == (start, end):
                return lane.go
            if pair == (end, start):
                return lane.go.opposite
    return None


def beyond(place: str, go: Travel, hold: Hold) -> str:
    """The next place in a direction of travel; empty where the lane ends."""
    for lane in hold.lanes:
        way = lane.through if lane.go is go else lane.through[::-1] if lane.go.opposite is go else ()
        for here, following in pairwise(way):
            if here == place:
                return following
    return ""


def in_the_way(hop: Hop, standing: Standing, hold: Hold) -> Iterator[Restraint]:
    """The raised restraints that stop this move, in the order of the description.

    For a unit over several rows also those that lie on floor which it sweeps: between bays that share floor
    with the places it moves between.
    """
    places = {hop.start, hop.end}
    swept = places.union(*(hold.overlapping(place) for place in places if place in hold.bays))
    for item in hold.restraints.values():
        if item.between is None or item.name not in standing.raised or hop.go not in item.stops:
            continue
        if swept.issuperset(item.between):
            yield item


def held_down(
    standing: Standing, held: Mapping[str, str], through: Sequence[str], hold: Hold
) -> tuple[tuple[Hop, Restraint, str], ...]:
    """What the held controls keep down on the way: where, which restraint, by which control."""
    return tuple(
        (hop, item, control)
        for hop in hops(through, hold)
        for item in in_the_way(hop, standing, hold)
        for control, position in held.items()
        if item.lowered_by.get(control) == position
    )


def overridden(
    standing: Standing, held: Mapping[str, str], through: Sequence[str], hold: Hold
) -> tuple[Restraint, ...]:
    """What the unit itself pushes down on the way."""
    controlled = {item.name for _, item, _ in held_down(standing, held, through, hold)}
    return tuple(
        item
        for hop in hops(through, hold)
        for item in in_the_way(hop, standing, hold)
        if hop.go in item.override and item.name not in controlled
    )
