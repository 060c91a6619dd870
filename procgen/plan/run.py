"""One run: how a unit can go through neighbouring hops in one direction, in one step.

A run is settled by the controls held meanwhile. Given those, every restraint concerned either is all
right as it stands, or has to be moved by hand before, or makes the run impossible.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import combinations

from procgen.model.words import RestraintState, Travel
from procgen.plan.machine import Hop, Machine, Pair

RAISED, LOWERED = RestraintState.RAISED, RestraintState.LOWERED
MOST_HELD = 2
"""How many controls may be held at once."""
_NEVER_AGAIN = 100
"""What it costs to push down an item that nobody can raise: only where there is no other way."""


class Mode(StrEnum):
    """How a load is moved: under power, pushed by hand, or carried piece by piece."""

    DRIVE = "drive"
    PUSH = "push"
    STOW = "stow"


@dataclass(frozen=True, slots=True)
class Setting:
    """How the restraints stand, and which of them hold other units (`pinned`) and so must be up.

    `beyond` are restraints that cannot be got at by hand.
    """

    restraints: Mapping[str, RestraintState]
    pinned: frozenset[str]
    beyond: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Run:
    """A way through some hops in one step, all in one direction unless the load is stowed.

    `touches` are the hand actions it needs before; `hold` the controls held; `dropped` the restraints
    that stay down behind the unit. `wants` says which restraints must stand how as it starts (no entry:
    either will do), `presumes` those of them that the way itself asks for.
    """

    hops: tuple[Hop, ...]
    mode: Mode
    needs_power: bool
    hold: Mapping[str, str]
    touches: tuple[tuple[str, RestraintState], ...]
    dropped: tuple[str, ...]
    wants: Mapping[str, RestraintState]
    presumes: Mapping[str, RestraintState]


@dataclass(frozen=True, slots=True)
class _Passing:
    """What one hop asks of one restraint: to be out of the way, to be up as a guide, or both.

    `is_carried`: pieces are carried past it, which push nothing down.
    """

    go: Travel
    stops: bool
    guides: bool
    is_carried: bool = False


@dataclass(frozen=True, slots=True)
class _Stand:
    """How one restraint must stand as the run starts, and what comes of it."""

    state: RestraintState
    cost: int = 0
    dropped: bool = False
    is_wanted: bool = False
    is_presumed: bool = False


def solve(machine: Machine, hops: Sequence[Hop], mode: Mode, setting: Setting) -> Run | None:
    """The best way through `hops` in one step, None where there is none.

    Best is: fewest hand actions, then fewest controls held, then the order of the description.
    """
    asked = passings(machine, hops, mode)
    best: tuple[tuple[int, int], Run] | None = None
    for held in _held_sets(machine, hops, mode, asked, setting):
        found = _evaluate(machine, hops, held, mode, asked, setting)
        if found is None:
            continue
        cost = (found[0], len(held))
        if best is None or cost < best[0]:
            best = (cost, found[1])
    return best[1] if best else None


def passings(machine: Machine, hops: Sequence[Hop], mode: Mode = Mode.DRIVE) -> Mapping[str, list[_Passing]]:
    """What the hops ask of each restraint concerned, in the order of the hops.

    What a unit would stand on in the bay that a hop leads to has to be out of the way too; what it stands on
    already stops it no more. Pieces that are carried need no guide and stand on nothing that lies under a
    bay as a whole.
    """
    asked: dict[str, list[_Passing]] = {}
    is_carried = mode is Mode.STOW
    for hop in hops:
        guides = () if is_carried else machine.guiding.get((hop.start, hop.end), ())
        stops = [
            name
            for name in machine.standing.get(frozenset((hop.start, hop.end)), ())
            if hop.go in machine.hold.restraints[name].stops
            and (is_carried or name not in machine.under.get(hop.start, ()))
        ]
        if not is_carried:
            stops += machine.under.get(hop.end, ())
        for name in dict.fromkeys((*stops, *guides)):
            passing = _Passing(hop.go, name in stops, name in guides, is_carried)
            asked.setdefault(name, []).append(passing)
    return asked


def drive_pairs(machine: Machine, hop: Hop) -> tuple[Pair, ...]:
    """The controls, with their positions, that run a live drive under one end of a hop in its direction."""
    return tuple(
        dict.fromkeys(
            (drive.run_by, drive.go[hop.go])
            for name, drive in machine.hold.drives.items()
            if name not in machine.dead
            and hop.go in drive.go
            and (hop.start in drive.under or hop.end in drive.under)
            and machine.can_be_held(drive.run_by)
        )
    )


def lowering_pairs(machine: Machine, item: str) -> tuple[Pair, ...]:
    """The controls, with their positions, that can be held to keep a restraint down."""
    restraint = machine.hold.restraints[item]
    if item in machine.stuck or (restraint.powered and not machine.has_power()):
        return ()
    return tuple(pair for pair in restraint.lowered_by.items() if machine.can_be_held(pair[0]))


def _held_sets(
    machine: Machine,
    hops: Sequence[Hop],
    mode: Mode,
    asked: Mapping[str, list[_Passing]],
    setting: Setting,
) -> Iterator[tuple[Pair, ...]]:
    """Every set of controls worth holding, fewest first; at most two, no control in two positions."""
    if mode is Mode.STOW:
        yield ()
        return
    go, is_drive = hops[0].go, mode is Mode.DRIVE
    driving = dict.fromkeys(pair for hop in hops for pair in drive_pairs(machine, hop)) if is_drive else {}
    lowering = dict.fromkeys(
        pair
        for item, steps in asked.items()
        if any(step.stops for step in steps)
        and setting.restraints[item] is RAISED
        and not (machine.gives_way(item, go) and machine.hold.restraints[item].returns_by_spring)
        for pair in lowering_pairs(machine, item)
    )
    pairs = [pair for pair in {**driving, **lowering} if machine.asks_for(pair) <= {go}]
    for size in range(MOST_HELD + 1):
        for held in combinations(pairs, size):
            if len({control for control, _ in held}) < size:
                continue
            if not is_drive or all(set(drive_pairs(machine, hop)).intersection(held) for hop in hops):
                yield held


def _evaluate(
    machine: Machine,
    hops: Sequence[Hop],
    held: tuple[Pair, ...],
    mode: Mode,
    asked: Mapping[str, list[_Passing]],
    setting: Setting,
) -> tuple[int, Run] | None:
    """The run with these controls held and its cost, None where it cannot be."""
    down = {item for pair in held for item in machine.lowered_by(pair)}
    needs_power = mode is Mode.DRIVE or any(
        machine.hold.restraints[item].powered for item in down if item not in machine.stuck
    )
    constant = _constants(machine, hops, needs_power, setting)
    if constant is None:
        return None
    stands: dict[str, _Stand] = {}
    for item in dict.fromkeys((*asked, *sorted(down, key=machine.rank.__getitem__), *constant)):
        if item not in asked and item not in down and constant[item] is setting.restraints[item]:
            stands[item] = _Stand(constant[item], is_wanted=True)
            continue
        stand = _stand(machine, item, asked.get(item, ()), constant.get(item), item in down, setting)
        if stand is None:
            return None
        stands[item] = stand
    run = Run(
        hops=tuple(hops),
        mode=mode,
        needs_power=needs_power,
        hold=dict(held),
        touches=tuple(
            (item, stand.state) for item, stand in stands.items() if stand.state != setting.restraints[item]
        ),
        dropped=tuple(item for item, stand in stands.items() if stand.dropped),
        wants={item: stand.state for item, stand in stands.items() if stand.is_wanted},
        presumes={item: stand.state for item, stand in stands.items() if stand.is_presumed},
    )
    return sum(stand.cost for stand in stands.values()), run


def _constants(
    machine: Machine, hops: Sequence[Hop], needs_power: bool, setting: Setting
) -> Mapping[str, RestraintState] | None:
    """What must stand still all through the run: interlocks, and whatever holds another unit.

    Items between two places of the run itself are shared with the unit's own path and excepted.
    None where an interlock and another unit ask for opposite states.
    """
    power = machine.hold.power
    if needs_power and not machine.has_power():
        return None
    constant = dict(power.needs) if power is not None and needs_power else {}
    own = {item for hop in hops for item in machine.standing.get(frozenset((hop.start, hop.end)), ())}
    for item in sorted(setting.pinned - own, key=machine.rank.__getitem__):
        if constant.setdefault(item, RAISED) is LOWERED:
            return None
    return constant


def _stand(
    machine: Machine,
    item: str,
    steps: Sequence[_Passing],
    constant: RestraintState | None,
    is_held_down: bool,
    setting: Setting,
) -> _Stand | None:
    now = setting.restraints[item]
    if is_held_down:
        if any(step.guides for step in steps) or (constant is not None and constant is not now):
            return None
        is_jammed = item in machine.stuck and now is RAISED
        if constant is RAISED or (is_jammed and any(step.stops for step in steps)):
            return None
        return _Stand(now, is_wanted=True)
    best: _Stand | None = None
    for state in (now, LOWERED if now is RAISED else RAISED):
        if state is not now and (item in setting.beyond or not machine.moves_by_hand(item)):
            continue
        if constant not in (None, state):
            continue
        stand = _walk(machine, item, steps, state, constant is not None)
        if stand is None:
            continue
        cost = stand.cost + (state is not now)
        if best is None or cost < best.cost:
            best = _Stand(state, cost, stand.dropped, stand.is_wanted, stand.is_presumed)
    return best


def _walk(
    machine: Machine, item: str, steps: Sequence[_Passing], start: RestraintState, is_constant: bool
) -> _Stand | None:
    """Let the unit pass with the restraint standing in `start` at first; None where it cannot."""
    restraint = machine.hold.restraints[item]
    state, dropped, is_presumed = start, False, False
    for step in steps:
        gives_way = machine.gives_way(item, step.go) and not step.is_carried
        springs = gives_way and restraint.returns_by_spring
        if step.guides and state is not RAISED:
            return None
        is_presumed = is_presumed or step.guides or (step.stops and state is LOWERED and not springs)
        if not step.stops or state is LOWERED:
            continue
        if not gives_way or is_constant or _holds_power_up(machine, item):
            return None
        if not springs:
            state, dropped = LOWERED, True
    cost = 0 if not dropped else 1 if machine.moves_by_hand(item) else _NEVER_AGAIN
    return _Stand(start, cost, dropped, is_constant or is_presumed or dropped, is_presumed and not dropped)


def _holds_power_up(machine: Machine, item: str) -> bool:
    """Whether moving this item could count as moving an interlock item while powered."""
    power = machine.hold.power
    return power is not None and item in power.needs and not power.interlock_moves_while_on
