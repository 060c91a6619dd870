"""Floor contact and spreading (limits.md, section 4).

A load spreads at 45 degrees through what lies under it: a face a x b bears on (a + 2t)(b + 2t) below a
board of thickness t (FM 55-9, chapter 6, has the worked case). Pallet, boards and tie-downs count as load.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Callable
from fractions import Fraction

from procgen.limits.shown import mass_symbol, shown
from procgen.model.stated import Stated
from procgen.results.floor_contact import NO_TARE, Board, FloorLimits, Piece
from procgen.results.uses import Use
from procgen.units import Quantity, of


def contact_uses(piece: Piece, limits: FloorLimits, board: Quantity | None = None) -> tuple[Use, ...]:
    """Running, area and contact load of a piece against the limits that the floor has; with `board`, below
    one of this thickness under it or under each of its supports.
    """
    load, thickness = piece.load, board if board is not None else of(0, "mm")
    face_length, face_width = spread(*piece.face, thickness)
    length, width = spread(piece.length, piece.width, thickness)
    faces, apart = _spread_area(piece, thickness.si), piece.supports * face_length.si * face_width.si
    under = f"({piece.supports} × {face_length} × {face_width})"
    rows = (
        ("running-load", limits.running, length.si, f"length {length}"),
        ("area-load", limits.area, length.si * width.si, f"({length} × {width})"),
        ("contact-load", limits.contact, faces, under if faces == apart else f"({length} × {width})"),
    )
    return tuple(_use(kind, load, stated, size, words) for kind, stated, size, words in rows if stated)


def _use(kind: str, load: Quantity, stated: Stated, size: Fraction, words: str) -> Use:
    limit = stated.quantity
    used = Quantity(load.si / size / limit.unit.factor, limit.unit)
    return Use(
        kind=kind,
        title=kind.replace("-", " "),
        used=used,
        limit=limit,
        reckoning=f"{load} / {words} = {shown(used)} of {limit}",
        sources=(stated.source,) if stated.source else (),
        places=(stated.place,),
    )


def most_cargo(area_limit: Quantity, length: Quantity, width: Quantity, tare: Quantity = NO_TARE) -> Quantity:
    """The most that may be put on a footprint: area limit x length x width, less the tare.

    Exact, in pounds where the limit is written in pounds; never below zero.
    """
    load = area_limit.si * length.si * width.si - tare.si
    return of(max(load, Fraction(0)), "kg").to(mass_symbol(area_limit))


def least_area_limit(
    mass: Quantity, length: Quantity, width: Quantity, tare: Quantity = NO_TARE, symbol: str = "kg/m2"
) -> Quantity:
    """The least floor limit that carries a mass with its tare on a footprint; a demand, shown up."""
    return of((mass.si + tare.si) / (length.si * width.si), "kg/m2").to(symbol)


def spread(length: Quantity, width: Quantity, thickness: Quantity) -> tuple[Quantity, Quantity]:
    """The sides a face bears on below a board: each side grows by the thickness at both of its ends."""
    grown = 2 * thickness.si
    return (
        Quantity((length.si + grown) / length.unit.factor, length.unit),
        Quantity((width.si + grown) / width.unit.factor, width.unit),
    )


def least_board(piece: Piece, limit: Quantity, step: Quantity | None = None) -> Board:
    """The thinnest board, in whole steps (1 mm unless said otherwise), under each support of a piece, that
    brings its contact load down to `limit` (mass per area).

    Spreads of neighbouring supports that meet do not count twice: together they never count for more
    than the spread of the whole footprint. Sides are those of the board under one support. The board's
    own mass is not in it: where it counts, it is part of the tare.
    """
    thickness_step = step or of(1, "mm")
    steps = _least(lambda count: _bears(piece, limit, count * thickness_step.si))
    thickness = Quantity(steps * thickness_step.value, thickness_step.unit)
    length, width = spread(*piece.face, thickness)
    under = Quantity(piece.load.si / _spread_area(piece, thickness.si) / limit.unit.factor, limit.unit)
    if piece.supports * length.si * width.si == _spread_area(piece, thickness.si):
        faces = f"{piece.supports} × {length} × {width}"
    else:
        faces = " × ".join(str(side) for side in spread(piece.length, piece.width, thickness))
    reckoning = f"{piece.load} / ({faces}) = {shown(under)} of {limit}"
    return Board(thickness, length, width, reckoning)


def _bears(piece: Piece, limit: Quantity, thickness: Fraction) -> bool:
    return piece.load.si <= limit.si * _spread_area(piece, thickness)


def _spread_area(piece: Piece, thickness: Fraction) -> Fraction:
    face_length, face_width = piece.face
    apart = piece.supports * (face_length.si + 2 * thickness) * (face_width.si + 2 * thickness)
    whole = (piece.length.si + 2 * thickness) * (piece.width.si + 2 * thickness)
    return min(apart, whole)


def bearers(mass: Quantity, line_limit: Quantity, length: Quantity) -> int:
    """How many equal bearers of a length a mass needs, each loaded to at most `line_limit` (mass per
    length of bearer): up to the next whole number, and never under two, since nothing stands on one.
    """
    if mass.si <= 0 or line_limit.si <= 0 or length.si <= 0:
        raise ValueError("mass, line limit and length are above zero")
    return max(2, math.ceil(mass.si / (line_limit.si * length.si)))


def four_points(
    mass: Quantity, x_arms: tuple[Quantity, Quantity], y_arms: tuple[Quantity, Quantity]
) -> tuple[Quantity, Quantity, Quantity, Quantity]:
    """The loads on four supports of a rigid piece whose centre of gravity lies off the middle.

    `x_arms` are the distances from the centre of gravity to the first and second row of supports along
    x, `y_arms` those along y. Each row takes the share of the other row's arm (moments about a row).
    Order: first x row with first and second y, then second x row with first and second y.
    """
    along = [x_arms[1].si, x_arms[0].si]
    across = [y_arms[1].si, y_arms[0].si]
    whole = sum(along) * sum(across)
    if min(*along, *across) < 0 or whole == 0:
        raise ValueError("the centre of gravity lies between the supports")
    a, b, c, d = (Quantity(mass.value * x * y / whole, mass.unit) for x in along for y in across)
    return a, b, c, d


def _least(enough: Callable[[int], bool]) -> int:
    """The least whole number from 0 that is enough, where more is never worse."""
    high = 1
    while not enough(high):
        high *= 2
    return bisect_left(range(high), True, key=enough)
