"""In which order units are moved.

What is in the hold and has to go, out or to another bay, goes first: the units near the doorway before
the others, that is fewest changes of direction, then the shortest way, then right before left; but only
one that can leave past the others. A unit that can leave still can once another is gone, so taking any
that can go never leads into a dead end. Where no way leads from one part of the hold to another, each part
is done by itself. Loading is the same thing backwards: the unit that could leave first from the loaded
hold comes last, and the part that the description names first is loaded first.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import pairwise
from operator import attrgetter

from procgen.diagnostics import Place
from procgen.model.hold import Hold
from procgen.model.words import OUTSIDE, RestraintState
from procgen.plan.blocked import headed, in_the_way, why_no_way
from procgen.plan.load import Load, pinned
from procgen.plan.machine import across
from procgen.plan.route import Router
from procgen.plan.run import Setting
from procgen.results.plan import Reason

Restraints = Mapping[str, RestraintState]
Stands = Callable[[Load], str]


@dataclass(frozen=True, slots=True)
class Order:
    """The loads in the order in which they are moved; or that there is none.

    Then `stuck` are the loads none of which can go, `standing` says where the units are that stay and
    those that are through by then. `is_coming`: the loads are on their way in.
    """

    loads: tuple[Load, ...] = ()
    is_coming: bool = False
    stuck: tuple[Load, ...] = ()
    standing: Mapping[str, str] = field(default_factory=dict)


def in_order(
    router: Router, loads: Sequence[Load], others: Mapping[str, str], restraints: Restraints
) -> Order:
    """The loads in the order in which they are moved past `others`, or those that are stuck."""
    within = [load for load in loads if load.start != OUTSIDE]
    coming = [load for load in loads if load.start == OUTSIDE]
    first = _peel(router, _preferred(router, within, restraints), others, restraints, is_coming=False)
    if first.stuck:
        return first
    arrived = {**others, **{load.name: load.goal for load in within if load.goal != OUTSIDE}}
    last = _peel(router, _preferred(router, coming, restraints), arrived, restraints, is_coming=True)
    if last.stuck:
        return last
    return Order((*first.loads, *reversed(last.loads)))


def _preferred(router: Router, loads: Sequence[Load], restraints: Restraints) -> list[Load]:
    """Part by part, the last one first, and doorway bays first in each.

    That is fewest changes of direction, shortest way, right before left, last named first.
    """
    backwards, parts = list(reversed(loads)), router.machine.hold.once(_parts)
    keys: dict[str, tuple[int, int, int, Fraction]] = {}
    for load in backwards:
        way = router.alone(load, restraints)
        bay = load.start if load.goal == OUTSIDE else load.goal
        right = -across(router.machine.hold, bay)
        keys[load.name] = (-parts[bay], *((way.turns, way.length) if way else (0, 0)), right)
    return sorted(backwards, key=lambda load: keys[load.name])


def _parts(hold: Hold) -> Mapping[str, int]:
    """For each bay the number of the part of the hold that it lies in: lanes and shared floor join bays."""
    joined = {bay: {bay, *hold.overlapping(bay)} for bay in hold.bays}
    for lane in hold.lanes:
        for one, other in pairwise(bay for bay in lane.through if bay != OUTSIDE):
            joined[one].add(other)
            joined[other].add(one)
    found: dict[str, int] = {}
    for number, first in enumerate(hold.bays):
        edge = [] if first in found else [first]
        while edge:
            bay = edge.pop()
            if bay not in found:
                found[bay] = number
                edge.extend(joined[bay])
    return found


def _peel(
    router: Router,
    near_first: Sequence[Load],
    others: Mapping[str, str],
    restraints: Restraints,
    is_coming: bool,
) -> Order:
    """Take away the first unit that can go, again and again.

    What comes is taken away backwards, from the bays that it goes to.
    """

    stands = _stands(is_coming)
    left, taken, standing = list(near_first), list[Load](), dict(others)
    while left:
        going = next(
            (
                load
                for load in left
                if can_go(router, load, _standing(left, load, standing, stands), restraints)
            ),
            None,
        )
        if going is None:
            return Order(tuple(taken), is_coming, tuple(left), standing)
        left.remove(going)
        taken.append(going)
        if not is_coming and going.goal != OUTSIDE:
            standing[going.name] = going.goal
    return Order(tuple(taken))


def _stands(is_coming: bool) -> Stands:
    return attrgetter("goal" if is_coming else "start")


def _standing(
    left: Sequence[Load], load: Load, others: Mapping[str, str], stands: Stands
) -> Mapping[str, str]:
    return {**others, **{other.name: stands(other) for other in left if other is not load}}


def can_go(router: Router, load: Load, standing: Mapping[str, str], restraints: Restraints) -> bool:
    """Whether a load has a way past units that stand in the hold."""
    setting = Setting(restraints, pinned(router.machine, standing.values()))
    return router.way(load, standing.values(), setting) is not None


def why_stuck(router: Router, order: Order, restraints: Restraints) -> tuple[Reason, ...]:
    """Why none of the units that are stuck can go.

    What stops each even alone; else what stops now those that do not merely wait for another.
    """
    left, others, stands = order.stuck, order.standing, _stands(order.is_coming)

    def why(load: Load, standing: Mapping[str, str]) -> Reason:
        setting = Setting(restraints, pinned(router.machine, standing.values()))
        return why_no_way(router, load, standing, setting)

    def waits(load: Load) -> bool:
        standing = _standing(left, load, others, stands)
        return in_the_way(router.machine, load, standing) in {other.name for other in left}

    alone = [(load, why(load, others)) for load in left if not can_go(router, load, others, restraints)]
    stopped = [] if alone else [load for load in left if not waits(load)] or left
    now = [(load, why(load, _standing(left, load, others, stands))) for load in stopped]
    by_cause: dict[tuple[Reason, Place], list[Load]] = {}
    for load, cause in (*alone, *now):
        by_cause.setdefault((cause, cause.place), []).append(load)
    return tuple(headed(loads, cause) for (cause, _), loads in by_cause.items())
