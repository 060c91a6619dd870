"""Check values from general-purpose libraries that know nothing of holds.

The answers stand here as numbers, to as many places as they were read; the tests ask the libraries anew.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from procgen.limits.angles import root
from procgen.limits.check_cases import case, least_length
from procgen.limits.linear import largest_sum
from procgen.limits.stability import stance
from procgen.limits.tiedown import lay_by_angles
from procgen.limits.zones import check_load
from procgen.model.stated import Span1, Stated
from procgen.model.words import LoadDirection
from procgen.results.check_value import CheckValue
from procgen.results.load_limits import CombinedLimit, Placed
from procgen.results.stability import Gear, Mass
from procgen.units import of

CORNERS = (
    ("3", "2", "0.5", "6.012123"),
    ("2.5", "1.8", "0.6", "4.844241"),
    ("5", "4", "1.5", "9.689491"),
    ("1.1", "2.4", "0.8", "3.123371"),
)
"""Corridors, width, and the least over the angle of (D cos a + B sin a - w) / (sin a cos a)."""

PROGRAMS = (
    (
        "a + b + c under a + b <= 1500, b + c <= 1900, a <= 1000, b <= 1200, c <= 1100",
        ("1", "1", "1"),
        (("1", "1", "0"), ("0", "1", "1"), ("1", "0", "0"), ("0", "1", "0"), ("0", "0", "1")),
        ("1500", "1900", "1000", "1200", "1100"),
        "2600",
    ),
    (
        "a + b + c + d under a + b/2 <= 1200, b/2 + c <= 1300, a/4 + 3c/4 + d <= 1400, all <= 3100",
        ("1", "1", "1", "1"),
        (("1", "0.5", "0", "0"), ("0", "0.5", "1", "0"), ("0.25", "0", "0.75", "1"), ("1", "1", "1", "1")),
        ("1200", "1300", "1400", "3100"),
        "3100",
    ),
    (
        "7x + 5y + 3z under 2x + 3y + z <= 5, 4x + y + 2z <= 11, 3x + 4y + 2z <= 8",
        ("7", "5", "3"),
        (("2", "3", "1"), ("4", "1", "2"), ("3", "4", "2")),
        ("5", "11", "8"),
        "17.5",
    ),
)
"""In words; the weights, rows and bounds; the largest sum."""

UNIT = ("1100", "10.20", "11.75")
STRETCHES = (
    ("10.4", "11.9", "958.064516"),
    ("9", "10.95", "532.258065"),
    ("10.9", "11.1", "141.935484"),
)
"""A unit's mass and the ends of its base; how much of it stands in a stretch from here to there."""

WEIGHINGS = (
    ("2", "14", "20000", "13.1", "1500"),
    ("-1.5", "11.2", "8340", "10.05", "755.19685"),
)
"""Nose wheel, main wheels, mass and its arm; the load on the nose wheel."""

CONVERSIONS = (
    ("25", "kt", "m/s", "12.861111"),
    ("500", "daN", "lbf", "1124.044715"),
    ("45.2", "lb/in", "kg/m", "807.180123"),
    ("3500", "lb", "kg", "1587.573295"),
    ("64", "in", "m", "1.6256"),
)

STRAPS = (
    (17, 63, ("43.415327", "85.207378", "29.237170")),
    (5, 85, ("8.682409", "99.240388", "8.715574")),
    (52, 8, ("60.966990", "8.568352", "78.801075")),
)
"""Angles to the floor and to x in degrees; the shares forward, left and up in per cent."""

_LAST = "0.0000005"


def library_cases() -> Iterator[CheckValue]:
    """Every one of them."""
    for one, other, width, published in CORNERS:
        words = f"corridors {one} and {other}, width {width}"
        ours, source = least_length(one, other, width), "SciPy 1.17, bounded minimisation over the angle"
        yield case("longest piece round a corner", words, ours, published, "0.000001", source)
    for words, weights, rows, bounds, published in PROGRAMS:
        exact = [Fraction(weight) for weight in weights]
        best = largest_sum(exact, [[Fraction(a) for a in row] for row in rows], [*map(Fraction, bounds)])
        value = sum((w * x for w, x in zip(exact, best.values, strict=True)), Fraction(0))
        yield case("largest sum", words, value, published, _LAST, "SciPy 1.17, linprog (HiGHS)")
    yield from _stretches()
    yield from _weighings()
    for number, unit, to, published in CONVERSIONS:
        ours_in = of(number, unit).to(to)
        yield case("unit", f"{number} {unit} in {to}", ours_in, published, _LAST, "Pint 0.25")
    yield from _straps()


def _stretches() -> Iterator[CheckValue]:
    mass, start, end = UNIT
    across = Span1(of(0, "m"), of(1, "m"))
    unit = Placed("u", "1", of(mass, "kg"), Span1(of(start, "m"), of(end, "m")), across)
    for low, high, published in STRETCHES:
        within = Span1(of(low, "m"), of(high, "m"))
        (use,) = check_load([unit], [CombinedLimit("s", "s", Stated(of(9000, "kg"), None), (), within)])
        words = f"{mass} kg on a base from {start} to {end} m, from {low} to {high} m"
        source = "SciPy 1.17, adaptive quadrature (QUADPACK)"
        yield case("part of a unit in a stretch", words, use.used, published, _LAST, source)


def _weighings() -> Iterator[CheckValue]:
    for nose, main, mass, x, published in WEIGHINGS:
        gear = Gear(of(nose, "m"), of(main, "m"), Stated(of(5, "%"), None))
        ours = stance(gear, Mass.at("all", of(mass, "kg"), of(x, "m"))).nose_load
        words = f"nose wheel at {nose} m, main wheels at {main} m, {mass} kg at {x} m"
        source = "NumPy 2.4, two equations solved (forces, moments)"
        yield case("nose load", words, ours, published, _LAST, source)


def _straps() -> Iterator[CheckValue]:
    directions = (LoadDirection.FORWARD, LoadDirection.LEFT, LoadDirection.UP)
    for floor, along, published in STRAPS:
        squares = lay_by_angles(Fraction(floor), Fraction(along), directions).squares
        for direction, share in zip(directions, published, strict=True):
            words = f"{floor} degrees to the floor, {along} to x, {direction}"
            ours, source = of(root(squares[direction]) * 100, "%"), "Python 3.11, math (C library cosines)"
            yield case("tie-down share", words, ours, share, _LAST, source)
