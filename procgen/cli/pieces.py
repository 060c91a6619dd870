"""A piece, a strap, a mass as they are given on the command line."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from fractions import Fraction

from procgen.diagnostics import NOWHERE, ProcgenError
from procgen.model.hold import Hold
from procgen.model.loads import StrapType
from procgen.model.stated import Stated
from procgen.results.floor_contact import NO_TARE, Piece
from procgen.units import Dimension, Quantity, QuantityError, quantity

_SIGN = "×"


def above_zero(text: str, dimension: Dimension, option: str) -> Quantity:
    """A quantity above zero. Raises `ProcgenError` that says how one is written."""
    found = _quantity(text, dimension, option)
    if found.si <= 0:
        raise ProcgenError(f"{option}: “{text}” is not above zero: give a {dimension} above zero")
    return found


def sides(text: str, option: str) -> tuple[Quantity, Quantity]:
    """Length along the hold and width across it, as in `1.2 m x 0.8 m`. Raises `ProcgenError`."""
    parts = [part.strip() for part in text.replace(_SIGN, "x").split("x")]
    if len(parts) != 2 or not all(parts):
        raise ProcgenError(
            f"{option}: “{text}” is not two sides: write length along the hold, x, width across it, as in"
            " “1.2 m x 0.8 m”"
        )
    first, second = (above_zero(part, Dimension.LENGTH, option) for part in parts)
    return first, second


def piece(options: argparse.Namespace) -> Piece | None:
    """The piece that `--mass`, `--footprint` and the options with them describe; None without any of them.

    Raises `ProcgenError` where one is wrong, or lacks another.
    """
    given = (options.mass, options.footprint, options.supports, options.face, options.tare)
    if all(one is None for one in given):
        if options.board_thickness is not None:
            raise ProcgenError("a board lies under a piece: give its --mass and --footprint")
        return None
    if options.mass is None or options.footprint is None:
        raise ProcgenError(
            "a piece on the floor needs both: --mass, as in “600 kg”, and --footprint, as in “1.2 m x 0.8 m”"
        )
    mass = above_zero(_one(options.mass, "--mass"), Dimension.MASS, "--mass")
    length, width = sides(options.footprint, "--footprint")
    supports = options.supports if options.supports is not None else 1
    if supports < 1:
        raise ProcgenError(f"--supports: {supports} is not above zero: give how many feet or skids it has")
    if supports > 1 and options.face is None:
        raise ProcgenError(f"{supports} supports need --face, the sides of one, as in “10 cm x 10 cm”")
    face = sides(options.face, "--face") if options.face is not None else None
    if face is not None and supports * face[0].si * face[1].si > length.si * width.si:
        raise ProcgenError("the faces of all supports come to more than the footprint: correct one of them")
    if face is not None and (face[0] > length or face[1] > width):
        raise ProcgenError("the face of one support is longer or wider than the footprint: correct one")
    tare = NO_TARE
    if options.tare is not None:
        tare = _quantity(options.tare, Dimension.MASS, "--tare")
        if tare.si < 0:
            raise ProcgenError(f"--tare: “{options.tare}” is below zero: give what lies under and over it")
    return Piece(mass, length, width, supports, face[0] if face else None, face[1] if face else None, tare)


def masses(texts: Sequence[str] | None) -> tuple[Quantity, ...]:
    """The masses of `--mass`, which may be given several times."""
    return tuple(above_zero(text, Dimension.MASS, "--mass") for text in texts or ())


def strap(hold: Hold, text: str) -> StrapType:
    """One of the hold's straps by its name, or any strap by its rating, as in `8.9 kN`."""
    known = hold.tie_down.straps if hold.tie_down is not None else {}
    if text in known:
        return known[text]
    try:
        rating = quantity(text, Dimension.FORCE)
    except QuantityError as error:
        names = ", ".join(known) or "none"
        raise ProcgenError(
            f"--strap: “{text}” is no strap of {hold.name} (straps: {names}) and no rating: {error};"
            f" {error.suggestion}"
        ) from None
    if rating.si <= 0:
        raise ProcgenError(f"--strap: “{text}” is not above zero: give the load it is rated for")
    return StrapType("given", f"a strap of {rating}", Stated(rating, None, NOWHERE))


def angles(texts: Sequence[str]) -> tuple[tuple[Fraction, Fraction], ...]:
    """Angles to the floor and to the x axis in degrees, each pair written `45/30`."""
    return tuple(_angles(text) for text in texts)


def _angles(text: str) -> tuple[Fraction, Fraction]:
    try:
        first, second = (Fraction(part.strip()) for part in text.split("/"))
    except (ValueError, ZeroDivisionError):
        first = second = Fraction(-1)
    if not (0 <= first <= 90 and 0 <= second <= 90):
        raise ProcgenError(
            f"--angles: “{text}” is not a pair of angles: write the one to the floor, /, the one to the x"
            " axis, each from 0 to 90 degrees, as in 45/30"
        )
    return first, second


def _one(texts: Sequence[str], option: str) -> str:
    if len(texts) > 1:
        raise ProcgenError(f"{option} is given {len(texts)} times: a piece has one")
    return texts[0]


def _quantity(text: str, dimension: Dimension, option: str) -> Quantity:
    try:
        found = quantity(text, dimension)
        # As we write it, not as it was typed.
        return Quantity(found.value, found.unit)
    except QuantityError as error:
        raise ProcgenError(f"{option}: {error}; {error.suggestion}") from None
