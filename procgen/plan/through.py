"""Which units that are to stay have to come out for others to pass, and are put back afterwards.

As few as will do: units that nobody need move stay where they are.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from operator import attrgetter

from procgen.model.step import PlannedUnit
from procgen.model.unit import UnitType
from procgen.model.words import OUTSIDE
from procgen.plan.load import Load, pinned
from procgen.plan.machine import Hop
from procgen.plan.order import Order, Restraints, in_order, why_stuck
from procgen.plan.route import Router
from procgen.plan.run import Setting
from procgen.results.plan import Reason


@dataclass(frozen=True, slots=True)
class Company:
    """What is in the way of a plan or may be: the loads to move, the units that stay with their bays.

    `liftable` are those of the units that stay whose type is known, so that they can be moved.
    """

    loads: tuple[Load, ...]
    staying: Mapping[str, str]
    liftable: Mapping[str, tuple[PlannedUnit, UnitType]]


@dataclass(frozen=True, slots=True)
class Arranged:
    """The order of the loads, and the units that come out only to be put back; or why there is none."""

    order: Order
    put_back: tuple[str, ...] = ()
    reasons: tuple[Reason, ...] = ()


def arranged(router: Router, company: Company, restraints: Restraints) -> Arranged:
    """The loads in their order, with as few of the units that stay taken out and put back as will do."""

    def tried(out: tuple[str, ...]) -> Order:
        return around(router, company, out, restraints)

    out: tuple[str, ...] = ()
    first = order = tried(out)
    while order.stuck:
        more = _in_the_way(router, company, order, out, restraints)
        if not more:
            return Arranged(order, reasons=_why(router, first, order, out, restraints))
        out = (*out, *more)
        order = tried(out)
    out = fewest(out, lambda some: not tried(some).stuck, 1)
    return Arranged(tried(out), out)


def around(router: Router, company: Company, out: Sequence[str], restraints: Restraints) -> Order:
    """The order of the loads with the units in `out` taken out first and put back."""
    staying = {name: bay for name, bay in company.staying.items() if name not in out}
    return in_order(router, _with(company, out), staying, restraints)


def fewest(
    out: tuple[str, ...], is_enough: Callable[[tuple[str, ...]], bool], at_once: int
) -> tuple[str, ...]:
    """A part of `out` that is enough and of which none can be left out.

    As many as `at_once` are tried to be left out together, then half as many, and so on.
    """
    size = at_once
    while size:
        for start in range(0, len(out), size):
            fewer = out[:start] + out[start + size :]
            if len(fewer) < len(out) and is_enough(fewer):
                return fewest(fewer, is_enough, min(size, len(fewer)))
        size //= 2
    return out


def _with(company: Company, out: Iterable[str]) -> tuple[Load, ...]:
    """The loads to move, those of units in `out` as two: out and back in."""
    chosen = set(out)
    loads: list[Load] = []
    for load in company.loads:
        if load.name in chosen:
            loads.append(Load(load.unit, load.unit_type, load.start, OUTSIDE))
            loads.append(Load(load.unit, load.unit_type, OUTSIDE, load.goal))
        else:
            loads.append(load)
    for name, bay in company.staying.items():
        if name in chosen:
            unit, unit_type = company.liftable[name]
            loads += [Load(unit, unit_type, bay, OUTSIDE), Load(unit, unit_type, OUTSIDE, bay)]
    return tuple(loads)


def _in_the_way(
    router: Router, company: Company, order: Order, out: Sequence[str], restraints: Restraints
) -> tuple[str, ...]:
    """The fewest units that have to come out besides `out` for one of the loads that are stuck."""
    may = {name: bay for name, bay in order.standing.items() if name in company.liftable and name not in out}
    found = [_fewest(router, load, order.standing, may, restraints) for load in order.stuck]
    on_way = [names for names in found if names]
    if on_way:
        return min(on_way, key=len)
    by_turns = [
        load.name for load in order.stuck if OUTSIDE not in (load.start, load.goal) and load.name not in out
    ]
    return tuple(by_turns[:1]) or tuple(name for name in may if company.staying.get(name) is not None)


def _fewest(
    router: Router,
    load: Load,
    standing: Mapping[str, str],
    may: Mapping[str, str],
    restraints: Restraints,
) -> tuple[str, ...]:
    """The units in the way of a load on the way with the fewest of them; none if there is no such way."""
    fixed = [bay for name, bay in standing.items() if name not in may and name != load.name]
    excluded = router.machine.excluded

    def met(hop: Hop) -> list[str]:
        return [name for name, bay in may.items() if hop.end in excluded[bay]]

    setting = Setting(restraints, pinned(router.machine, fixed))
    way = router.way(load, fixed, setting, lambda hop: len(met(hop)))
    return tuple(dict.fromkeys(name for hop, _ in way.hops for name in met(hop))) if way else ()


def _why(
    router: Router, first: Order, last: Order, out: Sequence[str], restraints: Restraints
) -> tuple[Reason, ...]:
    """Why there is no order: what is in the way, and why that cannot come out or is no help."""
    reasons = why_stuck(router, first, restraints)
    if not out:
        return reasons
    more = [
        Reason(f"{', '.join(out)} would have to come out first, but {reason.message}", reason.place)
        for reason in sorted(why_stuck(router, last, restraints), key=attrgetter("message"))
    ]
    return tuple(dict.fromkeys((*reasons, *more)))
