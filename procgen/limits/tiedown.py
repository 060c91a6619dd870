"""Tie-down (limits.md, section 5).

The share of a strap's load that counts follows from its direction cosines: with the angle v to the floor and
h to the x axis, cos v cos h along, cos v sin h across and sin v up. A strap counts only for the directions it
opposes. Friction counts for nothing unless the data says so.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping, Sequence
from fractions import Fraction

from procgen.limits.angles import cosine_squared, root, sine_squared
from procgen.limits.shown import shown
from procgen.model.stated import Stated
from procgen.model.words import LoadDirection
from procgen.results.tie_down import DirectionHold, Lay, Strap, StrapHold
from procgen.units import STANDARD_GRAVITY, Quantity, of

_ALONG = frozenset({LoadDirection.FORWARD, LoadDirection.AFT})
_ACROSS = frozenset({LoadDirection.LEFT, LoadDirection.RIGHT})
_STEP = Fraction(2, 10**29)
"""More than a share is short by."""
_Point = tuple[Quantity, Quantity, Quantity]


def lay_by_angles(to_floor: Fraction, to_x: Fraction, opposes: Collection[LoadDirection]) -> Lay:
    """A strap by its angle to the floor and its angle to the x axis (both 0 to 90 degrees), and the
    directions it opposes: at most one along, one across, and up. Raises `ValueError` otherwise.
    """
    opposed = [direction for direction in LoadDirection if direction in opposes]
    if len(_ALONG.intersection(opposed)) > 1 or len(_ACROSS.intersection(opposed)) > 1:
        raise ValueError("a strap opposes one of two opposite directions, not both")
    flat = cosine_squared(to_floor)
    squares: dict[LoadDirection, Fraction] = {}
    for direction in opposed:
        if direction in _ALONG:
            squares[direction] = flat * cosine_squared(to_x)
        elif direction in _ACROSS:
            squares[direction] = flat * sine_squared(to_x)
        else:
            squares[direction] = sine_squared(to_floor)
    return Lay(squares)


def lay_by_ends(cargo: _Point, fitting: _Point) -> Lay:
    """A strap by where it leaves the cargo and where its fitting is, as (x aft, y right, z up).

    It pulls the cargo towards the fitting, so it opposes what leads away from it: a fitting aft of the
    cargo opposes forward. Exact. Raises `ValueError` where both ends are one point.
    """
    x, y, z = (end.si - start.si for start, end in zip(cargo, fitting, strict=True))
    square = x * x + y * y + z * z
    if square == 0:
        raise ValueError("a strap has two ends")
    parts = (
        (x, LoadDirection.FORWARD, LoadDirection.AFT),
        (y, LoadDirection.LEFT, LoadDirection.RIGHT),
    )
    squares = {(ahead if part > 0 else behind): part * part / square for part, ahead, behind in parts if part}
    if z < 0:
        squares[LoadDirection.UP] = z * z / square
    return Lay(squares)


def share(lay: Lay, direction: LoadDirection) -> Fraction:
    """The part of a strap's load that counts in a direction; zero where it does not oppose it."""
    return root(lay.squares.get(direction, Fraction(0)))


def fitting_capacity(rating: Mapping[LoadDirection, Stated], lay: Lay) -> Quantity:
    """The load along a strap that a fitting is certain to take, from its ratings by direction of pull.

    Ratings are known only straight forward, aft, left, right and up; in between, nothing is certain but what
    lies between them: the used parts of the ratings add up to at most one. Nothing where it is pulled in a
    direction that it is not rated for. The sum of the parts is taken from above, so never too much.
    """
    used = Fraction(0)
    for direction, square in lay.squares.items():
        if square == 0:
            continue
        rated = rating.get(direction)
        if rated is None or rated.quantity.si <= 0:
            return of(0, "N")
        part = root(square)
        used += (part if part * part == square else part + _STEP) / rated.quantity.si
    if used == 0:
        return of(0, "N")
    symbol = next(iter(rating.values())).quantity.unit.symbol
    return of(1 / used, "N").to(symbol)


def strap_hold(strap: Strap, direction: LoadDirection) -> StrapHold:
    """What one strap holds in one direction, in the unit of the weaker of strap and fitting."""
    part, capacity = share(strap.lay, direction), strap.governing.quantity
    return StrapHold(strap.name, part, Quantity(capacity.value * part, capacity.unit))


def demand(mass: Quantity, factor: Quantity) -> Quantity:
    """The force that a mass asks for under a load factor: mass x n x g0, in lbf for a mass in pounds."""
    return of(mass.si * factor.si, "N").to("lbf" if mass.unit.symbol == "lb" else "N")


def tie_down(
    mass: Quantity,
    factors: Mapping[LoadDirection, Stated],
    straps: Sequence[Strap],
    friction: Quantity | None = None,
) -> tuple[DirectionHold, ...]:
    """For each direction with a load factor: what is asked, what each strap holds, and whether it is enough.

    `friction` is a coefficient (a ratio) that the data gives; it then counts with the weight at 1 g, along
    and across the floor.
    """
    rows = []
    for direction in LoadDirection:
        factor = factors.get(direction)
        if factor is None:
            continue
        asked = demand(mass, factor.quantity)
        rubbed = _friction(mass, friction, direction, asked)
        holds = [strap_hold(strap, direction) for strap in straps]
        counted = tuple(hold for hold in holds if hold.share)
        rows.append(
            DirectionHold(direction, asked, rubbed, counted, _reckoning(mass, factor, asked, rubbed, counted))
        )
    return tuple(rows)


def _friction(
    mass: Quantity, friction: Quantity | None, direction: LoadDirection, asked: Quantity
) -> Quantity:
    counts = friction is not None and direction is not LoadDirection.UP
    force = mass.si * STANDARD_GRAVITY * friction.si if friction is not None and counts else Fraction(0)
    return Quantity(force / asked.unit.factor, asked.unit)


def _reckoning(
    mass: Quantity, factor: Stated, asked: Quantity, rubbed: Quantity, straps: tuple[StrapHold, ...]
) -> str:
    parts = [f"{hold.strap} {shown(hold.force.to(asked.unit.symbol))}" for hold in straps]
    if rubbed.si:
        parts.append(f"friction {shown(rubbed)}")
    return f"{mass} × {factor.quantity} = {shown(asked)}; held by {' + '.join(parts) or 'nothing'}"


def number_needed(
    asked: Quantity, capacity: Quantity, share_of_each: Fraction, *, in_pairs: bool = False
) -> int | None:
    """How many equal straps a demand needs: up to the next whole number, with `in_pairs` to the next even
    one. None where a strap holds nothing in this direction, so that no number is enough.
    """
    each = capacity.si * share_of_each
    if asked.si <= 0:
        return 0
    if each <= 0:
        return None
    count = math.ceil(asked.si / each)
    return count + count % 2 if in_pairs else count


def straps_needed(
    mass: Quantity, factors: Mapping[LoadDirection, Stated], strap: Strap, *, in_pairs: bool = False
) -> Mapping[LoadDirection, int | None]:
    """For each direction that this strap opposes: how many laid like it are needed."""
    return {
        direction: number_needed(
            demand(mass, factors[direction].quantity),
            strap.governing.quantity,
            share(strap.lay, direction),
            in_pairs=in_pairs,
        )
        for direction in LoadDirection
        if direction in factors and direction in strap.lay.squares
    }
