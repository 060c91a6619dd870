"""What does not change while a procedure runs: the hold, looked up by what steps ask of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from procgen.model.hold import Hold
from procgen.model.step import PlannedUnit, Procedure
from procgen.model.unit import UnitType
from procgen.model.words import OUTSIDE, Operation, Travel


@dataclass(frozen=True, slots=True)
class Hop:
    """One move from a place to its neighbour in a lane."""

    start: str
    end: str
    go: Travel

    def __str__(self) -> str:
        return f"{self.go} from {self.start} to {self.end}"

    @property
    def pair(self) -> frozenset[str]:
        """The two places, whichever way."""
        return frozenset((self.start, self.end))

    @property
    def through_door(self) -> bool:
        """Whether it leads in or out of the hold."""
        return OUTSIDE in (self.start, self.end)

    @property
    def at_door(self) -> str:
        """The bay of a hop through a door."""
        return self.end if self.start == OUTSIDE else self.start


@dataclass(frozen=True, slots=True)
class Scene:
    """The hold, the unit types, the procedure, and the hold's parts by where they stand.

    `neighbours` gives the direction of each possible hop, `crossing` the restraints that stand on the floor a
    unit sweeps in it, `guiding` the items that must be up during it. `sharing` gives the bays that exclude a
    bay, `beneath` the restraints that a unit in it stands over and that are not there to hold it.
    """

    hold: Hold
    unit_types: Mapping[str, UnitType]
    procedure: Procedure
    neighbours: Mapping[tuple[str, str], Travel]
    crossing: Mapping[tuple[str, str], tuple[str, ...]]
    guiding: Mapping[tuple[str, str], tuple[str, ...]]
    sharing: Mapping[str, frozenset[str]]
    beneath: Mapping[str, tuple[str, ...]]

    def planned(self, unit: str) -> PlannedUnit | None:
        """A unit that the procedure moves or leaves aboard."""
        return self.procedure.units.get(unit) or self.procedure.aboard.get(unit)

    def goal(self, unit: str) -> str | None:
        """Where the procedure wants a unit in the end; None for one it does not know."""
        unloaded = self.procedure.operation is Operation.UNLOADING and unit in self.procedure.units
        planned = self.planned(unit)
        return OUTSIDE if unloaded else planned.bay if planned else None

    def type_of(self, unit: str) -> UnitType | None:
        """The type of a unit, where the procedure and the fleet know it."""
        planned = self.planned(unit)
        return self.unit_types.get(planned.unit_type) if planned else None

    def in_way(self, hop: Hop) -> tuple[str, ...]:
        """The restraints that stand where a unit passes in this hop."""
        return self.crossing.get((hop.start, hop.end), ())

    def doors_at(self, bay: str) -> tuple[str, ...]:
        """The door a bay lies at; every door where the description does not say which."""
        known = self.hold.bays.get(bay)
        at = known.door if known is not None else None
        return (at,) if at is not None and at in self.hold.doors else tuple(self.hold.doors)


@dataclass(frozen=True, slots=True)
class _Parts:
    """What `Scene` says of the hold alone."""

    neighbours: Mapping[tuple[str, str], Travel]
    crossing: Mapping[tuple[str, str], tuple[str, ...]]
    guiding: Mapping[tuple[str, str], tuple[str, ...]]
    sharing: Mapping[str, frozenset[str]]
    beneath: Mapping[str, tuple[str, ...]]


def scene_of(hold: Hold, unit_types: Mapping[str, UnitType], procedure: Procedure) -> Scene:
    """Look the hold's parts up once."""
    parts = hold.once(_parts_of)
    return Scene(
        hold,
        unit_types,
        procedure,
        neighbours=parts.neighbours,
        crossing=parts.crossing,
        guiding=parts.guiding,
        sharing=parts.sharing,
        beneath=parts.beneath,
    )


def _parts_of(hold: Hold) -> _Parts:
    guiding: dict[tuple[str, str], tuple[str, ...]] = {}
    for name, item in hold.restraints.items():
        for hop in item.guides:
            guiding[hop] = (*guiding.get(hop, ()), name)
    neighbours, sharing = _neighbours(hold), _sharing(hold)
    return _Parts(
        neighbours=neighbours,
        crossing={hop: _crossed(hold, hop, sharing) for hop in neighbours},
        guiding=guiding,
        sharing=sharing,
        beneath={bay: _beneath(hold, bay, sharing) for bay in sharing},
    )


def _crossed(hold: Hold, hop: tuple[str, str], sharing: Mapping[str, frozenset[str]]) -> tuple[str, ...]:
    """The restraints between two places that both are, or share floor with, an end of this hop.

    A unit on a wide bay so meets what stands between the narrow bays under it. What stands on the sill of
    another door is not met, though it too is at `outside`.
    """
    swept = {place for end in hop for place in sharing.get(end, frozenset((end,)))}
    doors = {hold.bays[end].door for end in hop if end != OUTSIDE}
    found: list[str] = []
    for name, item in hold.restraints.items():
        if item.between is None or not swept.issuperset(item.between):
            continue
        sill = [bay for bay in item.between if bay != OUTSIDE] if OUTSIDE in item.between else []
        if frozenset(item.between) == frozenset(hop) or all(hold.bays[bay].door in doors for bay in sill):
            found.append(name)
    return tuple(found)


def _beneath(hold: Hold, bay: str, sharing: Mapping[str, frozenset[str]]) -> tuple[str, ...]:
    position = hold.positions.get(bay)
    held_by = position.held_by if position is not None else ()
    covered = sharing[bay]
    found: list[str] = []
    for name, item in hold.restraints.items():
        lies = (
            covered.issuperset(item.between)
            if item.between is not None
            else not item.fixed and _straddled(hold, [one for one in item.beside if one in covered], sharing)
        )
        if lies and name not in held_by:
            found.append(name)
    return tuple(found)


def _straddled(hold: Hold, bays: Sequence[str], sharing: Mapping[str, frozenset[str]]) -> bool:
    """Whether two of these bays lie abreast: over a common stretch of x, and on floor of their own."""
    edges = {bay: hold.bays[bay].rectangle.x for bay in bays}
    return any(
        other not in sharing[one]
        and edges[one].low.si < edges[other].high.si
        and edges[other].low.si < edges[one].high.si
        for index, one in enumerate(bays)
        for other in bays[index + 1 :]
    )


def _sharing(hold: Hold) -> dict[str, frozenset[str]]:
    """Each bay with the bays that share floor with it; touching edges share none."""
    edges = {
        name: tuple(edge.si for span in (bay.rectangle.x, bay.rectangle.y) for edge in (span.low, span.high))
        for name, bay in hold.bays.items()
    }
    return {
        name: frozenset(
            other
            for other, (fore, aft, left, right) in edges.items()
            if fore < mine[1] and mine[0] < aft and left < mine[3] and mine[2] < right
        )
        for name, mine in edges.items()
    }


def _neighbours(hold: Hold) -> dict[tuple[str, str], Travel]:
    """The direction of every hop of every lane, both ways; the lane declared first is right."""
    hops: dict[tuple[str, str], Travel] = {}
    for lane in hold.lanes:
        for start, end in pairwise(lane.through):
            hops.setdefault((start, end), lane.go)
            hops.setdefault((end, start), lane.go.opposite)
    return hops
