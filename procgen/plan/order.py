"""In which order units are moved.

Unloading takes the units near the doorway first: fewest changes of direction, then the shortest way,
then right before left, but only one that can leave past the others. A unit that can leave still can
once another is gone, so taking any that can go never leads into a dead end. Loading is the same thing
backwards: the unit that could leave first from the loaded hold comes last.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from procgen.diagnostics import Place
from procgen.model.words import OUTSIDE, RestraintState
from procgen.plan.blocked import headed, in_the_way, why_no_way
from procgen.plan.load import Load, pinned
from procgen.plan.machine import across
from procgen.plan.route import Router
from procgen.plan.run import Setting
from procgen.results.plan import Reason

Restraints = Mapping[str, RestraintState]


@dataclass(frozen=True, slots=True)
class Order:
    """The loads in the order in which they are moved; or the reasons why there is no order."""

    loads: tuple[Load, ...] = ()
    reasons: tuple[Reason, ...] = ()


def loading_order(
    router: Router, loads: Sequence[Load], others: Mapping[str, str], restraints: Restraints
) -> Order:
    """The loads in the order in which they are brought in, or why there is none.

    Units that already stand in the hold, on their way, come first; the others fill it from its far ends.
    """
    within = [load for load in loads if load.start != OUTSIDE]
    coming = [load for load in loads if load.start == OUTSIDE]
    first = _peel(router, _preferred(router, within, restraints), others, restraints, lambda load: load.start)
    if first.reasons:
        return first
    arrived = {**others, **{load.name: load.goal for load in within}}
    near_first = _preferred(router, coming, restraints)
    last = _peel(router, near_first, arrived, restraints, lambda load: load.goal)
    if last.reasons:
        return last
    return Order((*first.loads, *reversed(last.loads)))


def unloading_order(
    router: Router, loads: Sequence[Load], others: Mapping[str, str], restraints: Restraints
) -> Order:
    """The loads in the order in which they are brought out, or why there is none."""
    near_first = _preferred(router, loads, restraints)
    return _peel(router, near_first, others, restraints, lambda load: load.start)


def _preferred(router: Router, loads: Sequence[Load], restraints: Restraints) -> list[Load]:
    """Doorway bays first: fewest changes of direction, shortest way, right before left, last named first."""
    backwards = list(reversed(loads))
    alone = Setting(restraints, frozenset())
    keys: dict[str, tuple[int, int, Fraction]] = {}
    for load in backwards:
        way = router.way(load.unit_type, load.start, load.goal, (), alone)
        bay = load.start if load.goal == OUTSIDE else load.goal
        right = -across(router.machine.hold, bay)
        keys[load.name] = (way.turns, way.length, right) if way else (0, 0, right)
    return sorted(backwards, key=lambda load: keys[load.name])


def _peel(
    router: Router,
    near_first: Sequence[Load],
    others: Mapping[str, str],
    restraints: Restraints,
    stands: Callable[[Load], str],
) -> Order:
    """Take away the first unit that can go, again and again; the reasons where none can."""
    left = list(near_first)
    taken: list[Load] = []
    while left:
        going = next(
            (
                load
                for load in left
                if _can_go(router, load, _standing(left, load, others, stands), restraints)
            ),
            None,
        )
        if going is None:
            return Order(reasons=_reasons(router, left, others, restraints, stands))
        left.remove(going)
        taken.append(going)
    return Order(tuple(taken))


def _standing(
    left: Sequence[Load], load: Load, others: Mapping[str, str], stands: Callable[[Load], str]
) -> Mapping[str, str]:
    return {**others, **{other.name: stands(other) for other in left if other is not load}}


def _can_go(router: Router, load: Load, standing: Mapping[str, str], restraints: Restraints) -> bool:
    setting = Setting(restraints, pinned(router.machine, standing.values()))
    return router.way(load.unit_type, load.start, load.goal, standing.values(), setting) is not None


def _reasons(
    router: Router,
    left: Sequence[Load],
    others: Mapping[str, str],
    restraints: Restraints,
    stands: Callable[[Load], str],
) -> tuple[Reason, ...]:
    """Why none of the units that are left can go.

    What stops each even alone; else what stops now those that do not merely wait for another.
    """

    def why(load: Load, standing: Mapping[str, str]) -> Reason:
        setting = Setting(restraints, pinned(router.machine, standing.values()))
        return why_no_way(router, load, standing, setting)

    def waits(load: Load) -> bool:
        standing = _standing(left, load, others, stands)
        return in_the_way(router.machine, load, standing) in {other.name for other in left}

    alone = [(load, why(load, others)) for load in left if not _can_go(router, load, others, restraints)]
    stopped = [] if alone else [load for load in left if not waits(load)] or left
    now = [(load, why(load, _standing(left, load, others, stands))) for load in stopped]
    by_cause: dict[tuple[Reason, Place], list[Load]] = {}
    for load, cause in (*alone, *now):
        by_cause.setdefault((cause, cause.place), []).append(load)
    return tuple(headed(loads, cause) for (cause, _), loads in by_cause.items())
