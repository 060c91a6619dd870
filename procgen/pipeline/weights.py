"""From a procedure to the weights that come aboard, move and leave, in the order of its steps.

A unit counts with its whole mass, in the middle of each bay. With all else unmoved, the nose gear share falls
steadily as a unit goes aft, and goes steadily from one value to the other as a unit's weight comes aboard: so
it is lowest at the ends of a move or at the aft-most bay that the unit passes, and nowhere in between.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from procgen.model.hold import Hold
from procgen.model.step import Drive, Procedure, Push, Stow
from procgen.model.words import OUTSIDE
from procgen.results.stability import Mass
from procgen.units import Quantity


def weights_of(hold: Hold, procedure: Procedure, masses: Mapping[str, Quantity]) -> tuple[Mass, ...]:
    """What every move of a procedure does to the aircraft's weight; `masses` are those of the units moved.

    A unit that moves on before another one does makes one move. A unit that stays aboard and comes out
    meanwhile leaves and comes back.
    """
    units = {**procedure.units, **procedure.aboard}
    found: list[Mass] = []
    for unit, way in _ways(procedure):
        if unit in masses:
            name = f"{hold.name} {units[unit].bay}"
            found += _weights(hold, name, masses[unit], way)
    return tuple(found)


def _ways(procedure: Procedure) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Each unit's moves in one, with every place it is in."""
    unit, way = "", list[str]()
    for step in procedure.steps:
        if isinstance(step, Drive | Push | Stow):
            if step.unit == unit:
                way += step.through[1:]
                continue
            if way:
                yield unit, tuple(way)
            unit, way = step.unit, list(step.through)
    if way:
        yield unit, tuple(way)


def _weights(hold: Hold, name: str, mass: Quantity, way: tuple[str, ...]) -> Iterator[Mass]:
    """One move of one unit: as it comes aboard or starts, at the aft-most place it passes, where it ends."""
    inside = [place for place in way if place != OUTSIDE]
    if not inside:
        return
    aft_most = max(inside, key=lambda bay: middle(hold, bay))
    comes, goes = way[0] == OUTSIDE, way[-1] == OUTSIDE
    none = Quantity(Fraction(0), mass.unit)
    at = middle(hold, aft_most)
    passing = f"{name} passes {aft_most}"
    if comes:
        stays = not goes and at == middle(hold, inside[-1])
        yield Mass(f"{name} in" if stays else passing, mass, mass.si * at, passing=not stays)
    elif at != middle(hold, inside[0]):
        only_end = not goes and at == middle(hold, inside[-1])
        step = f"{name} to {inside[-1]}" if only_end else passing
        yield Mass(step, none, mass.si * (at - middle(hold, inside[0])), passing=not only_end)
    if goes:
        yield Mass(f"{name} out", Quantity(-mass.value, mass.unit), -mass.si * at)
    elif at != middle(hold, inside[-1]):
        end = f"{name} in" if comes else f"{name} to {inside[-1]}"
        yield Mass(end, none, mass.si * (middle(hold, inside[-1]) - at))


def middle(hold: Hold, bay: str) -> Fraction:
    """The x of the middle of a bay, in m."""
    x = hold.bays[bay].rectangle.x
    return (x.low.si + x.high.si) / 2
