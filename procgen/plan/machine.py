"""The hold as the planner sees it: hops between neighbouring places, and what can be done to each item.

Everything here is an index over the description and over what is out of service; nothing changes while
a plan is made. This is the planner's own reading of the machine and shares no code with the simulator.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from procgen.model.controls import Control
from procgen.model.hold import Bay, Hold, Restraint
from procgen.model.words import OUTSIDE, RestraintState, Side, Stand, Travel
from procgen.plan.floor import cover, swept, touching, underneath
from procgen.results.state import State

Pair = tuple[str, str]
"""A control and one of its positions."""


@dataclass(frozen=True, slots=True)
class Hop:
    """One possible move between neighbouring places, in a direction of travel."""

    start: str
    end: str
    go: Travel


@dataclass(frozen=True, slots=True)
class Machine:
    """A hold with its items out of service, indexed for planning.

    `hops` are by their start. `standing` names the restraints on the floor that a unit sweeps between two
    places, `under` those that it would stand on in a bay, `guiding` those that must be up during a hop.
    `touching` says from which bay to which a person can step. `lowering` names the restraints that a
    control keeps down in a position, power being on where it is needed; `running` the directions in which
    drives then run. `excluded` names the bays that cannot be entered while a bay is occupied (itself and
    those it overlaps).
    `rank` is each restraint's place in the description; `lengths` are the hops' exact lengths, as whole
    numbers of a small part of a metre that suits the hold.
    """

    hold: Hold
    stuck: Mapping[str, RestraintState]
    dead: frozenset[str]
    hops: Mapping[str, tuple[Hop, ...]]
    standing: Mapping[frozenset[str], tuple[str, ...]]
    under: Mapping[str, tuple[str, ...]]
    touching: Mapping[str, frozenset[str]]
    guiding: Mapping[Pair, tuple[str, ...]]
    lowering: Mapping[Pair, tuple[str, ...]]
    running: Mapping[Pair, frozenset[Travel]]
    excluded: Mapping[str, frozenset[str]]
    rank: Mapping[str, int]
    lengths: Mapping[Hop, int]

    def is_interlock(self, item: str) -> bool:
        """Whether power depends on this restraint."""
        return self.hold.power is not None and item in self.hold.power.needs

    def moves_by_hand(self, item: str) -> bool:
        """Whether a person can raise and lower this restraint."""
        restraint = self.hold.restraints[item]
        return restraint.by_hand and not restraint.fixed and item not in self.stuck

    def is_inside(self, item: str) -> bool:
        """Whether moving this restraint by hand puts a person inside (also when nothing is said)."""
        return self.hold.restraints[item].reached_from is not Stand.OUTSIDE

    def places(self, item: str) -> tuple[str, ...]:
        """The places that a restraint stands at."""
        restraint = self.hold.restraints[item]
        return (*(restraint.between or ()), *restraint.beside)

    def gives_way(self, item: str, go: Travel) -> bool:
        """Whether a unit travelling in `go` pushes this restraint down when it stands raised."""
        return item not in self.stuck and go in self.hold.restraints[item].override

    def can_be_held(self, control: str) -> bool:
        """Whether this control can be held while a unit moves: nobody may be inside meanwhile."""
        found = self.hold.controls.get(control)
        return found is not None and found.is_held and control not in self.dead and found.at is Stand.OUTSIDE

    def asks_for(self, pair: Pair) -> frozenset[Travel]:
        """The directions in which drives run while a control is held in a position."""
        return self.running.get(pair, frozenset())

    def has_power(self) -> bool:
        """Whether power can be turned on at all, interlocks left aside."""
        return _has_power(self.hold, self.dead)

    def lowered_by(self, pair: Pair) -> tuple[str, ...]:
        """The restraints that a control holds down in a position, power being on where it is needed.

        Those that are stuck are among them: they do not go down, but nobody works the control of a jammed
        item that must stay up.
        """
        return self.lowering.get(pair, ())

    def held_by(self, bay: str) -> tuple[str, ...]:
        """The restraints that must be up while a unit stands in a place."""
        position = self.hold.positions.get(bay)
        return position.held_by if position else ()


def machine(hold: Hold, start: State) -> Machine:
    """Index a hold for planning, with what `start` says is out of service."""
    return replace(
        hold.once(_in_service), stuck=start.stuck, dead=start.dead, lowering=_lowering(hold, start.dead)
    )


def _in_service(hold: Hold) -> Machine:
    """The index of a hold with everything in service."""
    guiding: dict[Pair, list[str]] = {}
    for name, item in hold.restraints.items():
        for hop in item.guides:
            guiding.setdefault(hop, []).append(name)
    running: dict[Pair, set[Travel]] = {}
    for drive in hold.drives.values():
        for go, position in drive.go.items():
            running.setdefault((drive.run_by, position), set()).add(go)
    hops = _hops(hold)
    covered = cover(hold)
    pairs = {frozenset((hop.start, hop.end)) for there in hops.values() for hop in there}
    return Machine(
        hold=hold,
        stuck={},
        dead=frozenset(),
        hops=hops,
        standing={pair: swept(hold, covered, pair) for pair in pairs},
        under={bay: underneath(hold, covered, bay) for bay in hold.bays},
        touching=touching(hold, [(hop.start, hop.end) for there in hops.values() for hop in there]),
        guiding={pair: tuple(items) for pair, items in guiding.items()},
        lowering=_lowering(hold, frozenset()),
        running={pair: frozenset(directions) for pair, directions in running.items()},
        excluded=covered,
        rank={name: index for index, name in enumerate(hold.restraints)},
        lengths=_lengths(hold, [hop for there in hops.values() for hop in there]),
    )


def _lowering(hold: Hold, dead: frozenset[str]) -> Mapping[Pair, tuple[str, ...]]:
    found: dict[Pair, list[str]] = {}
    powerless = not _has_power(hold, dead)
    for name, item in hold.restraints.items():
        if item.powered and powerless:
            continue
        for pair in item.lowered_by.items():
            found.setdefault(pair, []).append(name)
    return {pair: tuple(items) for pair, items in found.items()}


def _has_power(hold: Hold, dead: frozenset[str]) -> bool:
    power = hold.power
    if power is None or "power" in dead or power.switch in dead:
        return False
    switch = hold.controls.get(power.switch)
    return switch is not None and not switch.is_held


def _hops(hold: Hold) -> Mapping[str, tuple[Hop, ...]]:
    """Every pair of neighbours in a lane, there and back; the first lane that names a pair decides."""
    found: dict[Pair, Hop] = {}
    for lane in hold.lanes:
        for one, other in zip(lane.through, lane.through[1:], strict=False):
            if (one, other) not in found:
                found[one, other] = Hop(one, other, lane.go)
                found[other, one] = Hop(other, one, lane.go.opposite)
    by_start: dict[str, list[Hop]] = {}
    for hop in found.values():
        by_start.setdefault(hop.start, []).append(hop)
    return {start: tuple(hops) for start, hops in by_start.items()}


def door_of(hold: Hold, hop: Hop) -> str | None:
    """The door a hop leads through, None for a hop that stays inside (or a bay at no door)."""
    if OUTSIDE not in (hop.start, hop.end):
        return None
    bay = hold.bays.get(hop.end if hop.start == OUTSIDE else hop.start)
    return bay.door if bay is not None and bay.door in hold.doors else None


def door_at(hold: Hold, item: str) -> str | None:
    """The door at which a restraint is reached from outside; None where any open door will do."""
    restraint = hold.restraints[item]
    places = [
        hold.bays[place] for place in (*(restraint.between or ()), *restraint.beside) if place in hold.bays
    ]
    if restraint.reached_from is not Stand.OUTSIDE:
        return None
    return next((bay.door for bay in places if bay.door in hold.doors), None)


def _lengths(hold: Hold, hops: Sequence[Hop]) -> Mapping[Hop, int]:
    metres = {hop: _metres(hold, hop) for hop in hops}
    parts = math.lcm(*(length.denominator for length in metres.values()))
    return {hop: int(length * parts) for hop, length in metres.items()}


def _metres(hold: Hold, hop: Hop) -> Fraction:
    """From centre to centre; from the edge of the floor at the door for a hop in or out."""
    places = [hold.bays[place] for place in (hop.start, hop.end) if place in hold.bays]
    if len(places) == 2:
        (x1, y1), (x2, y2) = (_centre(bay) for bay in places)
        return abs(x1 - x2) + abs(y1 - y2)
    door = door_of(hold, hop)
    edge = hold.floor.rectangle.y
    on_left = door is not None and hold.doors[door].side is Side.LEFT
    sill = edge.low.si if on_left else edge.high.si
    return sum((abs(_centre(bay)[1] - sill) for bay in places), Fraction(0))


def across(hold: Hold, bay: str) -> Fraction:
    """How far right of the centreline the middle of a bay lies, in metres."""
    return _centre(hold.bays[bay])[1] if bay in hold.bays else Fraction(0)


def _centre(bay: Bay) -> tuple[Fraction, Fraction]:
    area = bay.rectangle
    return (area.x.low.si + area.x.high.si) / 2, (area.y.low.si + area.y.high.si) / 2


def control_title(hold: Hold, name: str) -> str:
    """What is painted on a control, its name where it is unknown."""
    control: Control | None = hold.controls.get(name)
    return control.title if control else name


def item_title(hold: Hold, name: str) -> str:
    """What is painted on a restraint, its name where it is unknown."""
    item: Restraint | None = hold.restraints.get(name)
    return item.title if item else name
