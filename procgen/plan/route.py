"""The shortest free way of a unit over the lanes, as far as the restraints can be got out of the way."""

from __future__ import annotations

import heapq
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

from procgen.model.hand_moves import HandMoves
from procgen.model.unit import UnitType
from procgen.model.words import OUTSIDE, RestraintState, Travel
from procgen.plan.fit import misfit_at_door, misfit_in_bay
from procgen.plan.load import Load
from procgen.plan.machine import Hop, Machine, door_of
from procgen.plan.run import LOWERED, Mode, Setting, solve

Weight = Callable[[Hop], int]
"""What a hop costs before everything else is counted."""
_Cost = tuple[int, int, int, int, int]


@dataclass(frozen=True, slots=True)
class Way:
    """The hops of a way with the mode of each, its length and its changes of direction.

    Lengths are as in `Machine.lengths`.
    """

    hops: tuple[tuple[Hop, Mode], ...]
    length: int
    turns: int


@dataclass(slots=True)
class Router:
    """Finds ways in one machine, and remembers which hops can be made.

    `critical` are the restraints for which it matters whether they hold another unit: those a control
    lowers, those power depends on, those no hand moves.
    """

    machine: Machine
    critical: frozenset[str]
    _known: dict[object, Mode | None] = field(default_factory=dict)
    _alone: dict[object, Way | None] = field(default_factory=dict)

    def way(
        self, load: Load, occupied: Iterable[str], setting: Setting, weight: Weight | None = None
    ) -> Way | None:
        """The best way of a load to its goal: fewest pushed hops, then shortest, then fewest turns."""
        closed = {bay for other in occupied for bay in self.machine.excluded.get(other, ())}
        key = self._key(setting)

        def mode_of(hop: Hop) -> Mode | None:
            if hop.end in closed or (hop.end == OUTSIDE and load.goal != OUTSIDE):
                return None
            if hop.start == OUTSIDE and load.door not in (None, door_of(self.machine.hold, hop)):
                return None
            return self._mode_for(load.unit_type, hop, setting, key)

        return search(self.machine, load.start, load.goal, mode_of, weight)

    def alone(self, load: Load, restraints: Mapping[str, RestraintState]) -> Way | None:
        """The best way of a load through the empty hold, as the restraints stand before anything is moved."""
        known = (load.unit_type.code, load.start, load.goal, load.door)
        if known not in self._alone:
            self._alone[known] = self.way(load, (), Setting(restraints, frozenset()))
        return self._alone[known]

    def mode(self, unit: UnitType, hop: Hop, setting: Setting) -> Mode | None:
        """How a hop can be made: driven, else pushed; a loose load is carried. None if there is no way,
        whoever stands in it.
        """
        return self._mode_for(unit, hop, setting, self._key(setting))

    def _key(self, setting: Setting) -> object:
        """All that matters of a setting."""
        items = self.machine.hold.restraints
        return (
            setting.pinned & self.critical,
            setting.beyond,
            frozenset(
                name
                for name in self.critical
                if name in items
                and setting.restraints[name] is LOWERED
                and (not items[name].by_hand or name in setting.beyond)
            ),
        )

    def _mode_for(self, unit: UnitType, hop: Hop, setting: Setting, key: object) -> Mode | None:
        known = (unit.code, hop.start, hop.end, key)
        if known not in self._known:
            self._known[known] = self._mode(unit, hop, setting)
        return self._known[known]

    def _mode(self, unit: UnitType, hop: Hop, setting: Setting) -> Mode | None:
        if misfit_on_hop(self.machine, hop, unit):
            return None
        modes = [Mode.STOW] if unit.loose else [Mode.DRIVE]
        if not unit.loose and may_push(self.machine.hold.hand_moves, unit):
            modes.append(Mode.PUSH)
        return next((mode for mode in modes if solve(self.machine, (hop,), mode, setting)), None)


def router(machine: Machine) -> Router:
    """A router with nothing known yet."""
    critical = frozenset(
        name
        for name, item in machine.hold.restraints.items()
        if item.lowered_by or machine.is_interlock(name) or not machine.moves_by_hand(name)
    )
    return Router(machine, critical)


def misfit_on_hop(machine: Machine, hop: Hop, unit: UnitType) -> tuple[str, ...]:
    """Why a unit does not fit where a hop leads: the next bay, or the door it goes through."""
    hold = machine.hold
    reasons: tuple[str, ...] = ()
    if OUTSIDE in (hop.start, hop.end):
        door = door_of(hold, hop)
        if door is None:
            bay = hop.end if hop.start == OUTSIDE else hop.start
            return (f"{bay} is not said to lie at a door",)
        reasons += misfit_at_door(hold.doors[door], unit)
    if hop.end in hold.bays:
        reasons += misfit_in_bay(hold, hop.end, unit)
    return reasons


def may_push(leave: HandMoves | None, unit: UnitType) -> bool:
    """Whether the hold lets this unit be moved by hand at its maximum gross mass."""
    if leave is None:
        return False
    return leave.max_mass is None or unit.max_gross.quantity <= leave.max_mass.quantity


def search(
    machine: Machine,
    start: str,
    goal: str,
    mode_of: Callable[[Hop], Mode | None],
    weight: Weight | None = None,
) -> Way | None:
    """Dijkstra's algorithm over (place, direction of arrival), by weight, pushes, length, turns, hops."""
    zero = (0, 0, 0, 0, 0)
    heap: list[tuple[_Cost, int, str, Travel | None]] = [(zero, 0, start, None)]
    came: dict[tuple[str, Travel | None], tuple[tuple[str, Travel | None], Hop, Mode]] = {}
    best: dict[tuple[str, Travel | None], _Cost] = {(start, None): zero}
    count = 0
    while heap:
        cost, _, place, arrived = heapq.heappop(heap)
        if place == goal:
            return _way(came, (place, arrived), cost)
        if cost > best[place, arrived]:
            continue
        for hop in machine.hops.get(place, ()):
            mode = mode_of(hop)
            if mode is None:
                continue
            turns = cost[3] + (arrived is not None and hop.go is not arrived)
            further = (
                cost[0] + (weight(hop) if weight is not None else 0),
                cost[1] + (mode is Mode.PUSH),
                cost[2] + machine.lengths[hop],
                turns,
                cost[4] + 1,
            )
            key = (hop.end, hop.go)
            if key not in best or further < best[key]:
                best[key] = further
                came[key] = ((place, arrived), hop, mode)
                count += 1
                heapq.heappush(heap, (further, count, hop.end, hop.go))
    return None


def _way(
    came: Mapping[tuple[str, Travel | None], tuple[tuple[str, Travel | None], Hop, Mode]],
    end: tuple[str, Travel | None],
    cost: _Cost,
) -> Way:
    hops: list[tuple[Hop, Mode]] = []
    while end in came:
        end, hop, mode = came[end]
        hops.append((hop, mode))
    return Way(tuple(reversed(hops)), cost[2], cost[3])
