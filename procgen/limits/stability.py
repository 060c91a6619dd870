"""Ground stability (limits.md, section 8).

The weight on the nose gear is the sum of m (x_main - x) over the wheelbase. When it falls below the
aircraft's limit, the aircraft may tip on its tail; so it is looked at after every unit that comes or goes.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import cache
from itertools import chain, combinations

from procgen.results.stability import Gear, HoldOrder, Mass, Stance
from procgen.units import Quantity, of


def total(name: str, masses: Sequence[Mass]) -> Mass:
    """All masses as one, in the unit of the first, with their moments added up."""
    unit = masses[0].mass.unit
    kilograms = sum((each.mass.si for each in masses), Fraction(0))
    return Mass(
        name, Quantity(kilograms / unit.factor, unit), sum((each.moment for each in masses), Fraction(0))
    )


def centre(mass: Mass) -> Quantity:
    """Where the centre of gravity lies, in m from the datum. Raises `ValueError` without any mass."""
    if mass.mass.si <= 0:
        raise ValueError("only what weighs something has a centre of gravity")
    return of(mass.moment / mass.mass.si, "m")


def stance(gear: Gear, aboard: Mass, step: str = "") -> Stance:
    """How the aircraft stands with everything that is aboard."""
    x = centre(aboard)
    share = (gear.x_main.si - x.si) / gear.wheelbase.si
    return Stance(
        step=step,
        mass=aboard.mass,
        centre=x,
        nose_load=Quantity(aboard.mass.value * share, aboard.mass.unit),
        nose_share=share,
        met=share >= gear.least_share.quantity.si,
    )


def stances(gear: Gear, start: Mass, steps: Sequence[Mass]) -> tuple[Stance, ...]:
    """The stance before the first step and after each; what leaves has a mass below zero."""
    aboard, found = start, [stance(gear, start)]
    for step in steps:
        aboard = total("", [aboard, step])
        found.append(replace(stance(gear, aboard, step.name), passing=step.passing))
    return tuple(found)


def lowest_shown(found: Sequence[Stance]) -> tuple[Stance, ...]:
    """The stances without those of units on their way that are no lower than one beside them: what is
    lowest stays.
    """
    shares = [each.nose_share for each in found]
    return tuple(
        each
        for number, each in enumerate(found)
        if not each.passing
        or all(each.nose_share < share for share in (*shares[number - 1 : number], *shares[number + 1 :][:1]))
    )


def order_holds(gear: Gear, start: Mass, holds: Mapping[str, Sequence[Mass]]) -> HoldOrder:
    """The order of the holds, loaded (or, with masses that leave, unloaded) one after another, in which the
    least nose gear share is greatest; of equal ones the first in the order they are given.

    Where even that one falls below the limit, it is marked as needing a tail stand. Within a hold the masses
    keep their order. Units on their way count; they are shown where they stand lowest.
    """
    everything = frozenset(holds)
    wholes = {name: total(name, steps) for name, steps in holds.items() if steps}

    def before(done: frozenset[str]) -> Mass:
        return total("", [start, *(wholes[name] for name in holds if name in done and name in wholes)])

    @cache
    def worst_of(done: frozenset[str], name: str) -> Fraction:
        """The least share while this hold is worked after those."""
        return min(each.nose_share for each in stances(gear, before(done), holds[name]))

    @cache
    def best_worst(done: frozenset[str]) -> Fraction | None:
        """The least share from here to the end, of the best order; None when nothing is left."""
        return max((worst_from(done, name) for name in holds if name not in done), default=None)

    def worst_from(done: frozenset[str], name: str) -> Fraction:
        rest = best_worst(done | {name})
        here = worst_of(done, name)
        return here if rest is None else min(here, rest)

    order: list[str] = []
    while len(order) < len(everything):
        done = frozenset(order)
        open_ones = [name for name in holds if name not in done]
        order.append(max(open_ones, key=lambda name: worst_from(done, name)))
    found = stances(gear, start, [step for name in order for step in holds[name]])
    subsets = chain.from_iterable(combinations(holds, size) for size in range(len(holds)))
    worst = [worst_of(frozenset(done), name) for done in subsets for name in holds if name not in done]
    return HoldOrder(
        holds=tuple(order),
        stances=lowest_shown(found),
        tail_stand=not all(each.met for each in found),
        any_order=min([found[0].nose_share, *worst]) >= gear.least_share.quantity.si,
    )
