"""What lies on the floor where a unit goes: the restraints that it sweeps and those that it would stand on.

A bay may overlap others, as a pallet's bay overlaps those of two containers abreast. A unit that moves
from one bay to the next then runs over whatever stands between bays that either of the two overlaps.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from itertools import combinations

from procgen.model.hold import Hold, Restraint
from procgen.model.stated import Rectangle
from procgen.model.words import OUTSIDE

STEP = Fraction(1, 10)
"""How wide a gap between two bays a person steps over as if they touched, in metres."""


def cover(hold: Hold) -> Mapping[str, frozenset[str]]:
    """For every place the bays that cannot be entered while it is occupied: itself and those it overlaps."""
    return {bay: hold.overlapping(bay) | {bay} for bay in hold.bays}


def swept(hold: Hold, cover: Mapping[str, frozenset[str]], pair: Iterable[str]) -> tuple[str, ...]:
    """The restraints between two places, or between bays that both share floor with one of the two."""
    ground = frozenset().union(*(cover.get(place, frozenset({place})) for place in pair))
    return tuple(
        name
        for name, item in hold.restraints.items()
        if item.between is not None and ground.issuperset(item.between)
    )


def underneath(hold: Hold, cover: Mapping[str, frozenset[str]], bay: str) -> tuple[str, ...]:
    """The restraints that a unit in a bay would stand on, if they were up.

    They stand between two bays which that bay both overlaps, or can be moved and stand beside two that
    lie abreast. What holds the unit itself is left out.
    """
    position = hold.positions.get(bay)
    own = position.held_by if position else ()
    return tuple(
        name
        for name, item in hold.restraints.items()
        if name not in own and any(cover[bay].issuperset(pair) for pair in _gaps(hold, item))
    )


def _gaps(hold: Hold, item: Restraint) -> Iterable[tuple[str, str]]:
    if item.between is not None:
        return (item.between,)
    if item.fixed:
        return ()
    beside = [bay for bay in item.beside if bay in hold.bays]
    return tuple(pair for pair in combinations(beside, 2) if _abreast(hold, *pair))


def _abreast(hold: Hold, one: str, other: str) -> bool:
    first, second = hold.bays[one].rectangle, hold.bays[other].rectangle
    return _shared(_span_x(first), _span_x(second)) > 0 and not first.overlaps(second)


def touching(hold: Hold, hops: Iterable[tuple[str, str]]) -> Mapping[str, frozenset[str]]:
    """Which bays a person steps over to from each: neighbours in a lane, bays that lie side by side."""
    found: dict[str, set[str]] = {bay: set() for bay in hold.bays}
    for one, other in hops:
        if OUTSIDE not in (one, other) and one in found and other in found:
            found[one].add(other)
            found[other].add(one)
    for one, other in combinations(hold.bays, 2):
        if _have_edge(hold.bays[one].rectangle, hold.bays[other].rectangle):
            found[one].add(other)
            found[other].add(one)
    return {bay: frozenset(others) for bay, others in found.items()}


def _have_edge(one: Rectangle, other: Rectangle) -> bool:
    along = _shared(_span_x(one), _span_x(other))
    across = _shared(_span_y(one), _span_y(other))
    return (along > 0 and across >= -STEP) or (across > 0 and along >= -STEP)


def _span_x(area: Rectangle) -> tuple[Fraction, Fraction]:
    return area.x.low.si, area.x.high.si


def _span_y(area: Rectangle) -> tuple[Fraction, Fraction]:
    return area.y.low.si, area.y.high.si


def _shared(one: tuple[Fraction, Fraction], other: tuple[Fraction, Fraction]) -> Fraction:
    """How much two stretches have in common; the gap between them as a negative length."""
    return min(one[1], other[1]) - max(one[0], other[0])
