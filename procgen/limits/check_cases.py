"""Check values of mathematics and units: closed forms, textbook programs, international definitions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from procgen.limits.doorway import longest
from procgen.limits.linear import largest_sum
from procgen.results.check_value import CheckValue
from procgen.results.packages import CrossSection, Doorway
from procgen.units import Quantity, of

_DEFINED = "international definition (memory)"
_SP811 = "NIST SP 811, appendix B (memory)"


def case(
    what: str, words: str, ours: Quantity | Fraction, published: str, tolerance: str, source: str
) -> CheckValue:
    """A check value in the unit of our answer."""
    value, unit = (ours.value, ours.unit.symbol) if isinstance(ours, Quantity) else (ours, "")
    return CheckValue(what, words, value, Fraction(published), Fraction(tolerance), unit, source)


def general_cases() -> Iterator[CheckValue]:
    """Doors, linear programs, units."""
    yield from _corners()
    yield from _open_doors()
    yield from _programs()
    yield from _units()


def _corners() -> Iterator[CheckValue]:
    """A thick wall at the hold's end makes the corner of two corridors. Sizes are taken 10 000 times."""
    calculus = "standard calculus result, (a^(2/3) + b^(2/3))^(3/2)"
    moretti = "Moretti, College Mathematics Journal 33(3), 2002"
    for one, other, width, published, places, source in (
        (2, 3, 0, "7.0234824", "0.0000001", calculus),
        (1, 1, 0, "2.8284271", "0.0000001", calculus),
        (1, 8, 0, "11.1803399", "0.0000001", calculus),
        (27, 64, 0, "125", "0.0000001", calculus),
        (8, 3, 1, "12.856318", "0.000001", moretti),
    ):
        words = f"corridors {one} and {other}, width {width}"
        found = least_length(one, other, width)
        yield case("longest piece round a corner", words, found, published, places, source)


def least_length(one: int | str, other: int | str, width: int | str) -> Fraction:
    """The longest piece of a width that goes round the corner of two corridors."""
    scale = 10_000
    door = Doorway(of(Fraction(one) * scale, "m"), of(2, "m"), of(10**7, "m"), of(0, "m"))
    return _length(door, Fraction(other) * scale, Fraction(width) * scale, Fraction(10**7)) / scale


def _open_doors() -> Iterator[CheckValue]:
    closed = "closed form for a thin wall, B D / w"
    for door, depth, width, published in (
        ("1", "1", "0.5", "2"),
        ("1.5", "2", "0.6", "5"),
        ("2", "3", "1", "6"),
    ):
        opening = Doorway(of(door, "m"), of(2, "m"), of(0, "m"), of(50, "m"))
        found = _length(opening, Fraction(depth), Fraction(width), Fraction(101))
        words = f"door {door} m, hold {depth} m deep, width {width} m"
        yield case("longest piece through a thin wall", words, of(found, "m"), published, "0.001", closed)


def _length(door: Doorway, depth: Fraction | int, width: Fraction | int, hold: Fraction) -> Fraction:
    section = CrossSection(((of(0, "m"), of(depth, "m")), (of(2, "m"), of(depth, "m"))))
    found = longest(door, section, of(hold, "m"), of(width, "m"), of(1, "m"))
    return found.length.si if found.length is not None else Fraction(0)


def _programs() -> Iterator[CheckValue]:
    """Linear programs with known optima: the routine behind the most a zone can take."""
    for words, weights, rows, bounds, published, source in (
        (
            "3x + 5y under x <= 4, 2y <= 12, 3x + 2y <= 18",
            (3, 5),
            ((1, 0), (0, 2), (3, 2)),
            (4, 12, 18),
            "36",
            "Hillier and Lieberman, two-product example (memory)",
        ),
        (
            "5x + 4y under 6x + 4y <= 24, x + 2y <= 6, y - x <= 1, y <= 2",
            (5, 4),
            ((6, 4), (1, 2), (-1, 1), (0, 1)),
            (24, 6, 1, 2),
            "21",
            "Taha, paint example (memory)",
        ),
        (
            "100x + 10y + z under x <= 1, 20x + y <= 100, 200x + 20y + z <= 10 000",
            (100, 10, 1),
            ((1, 0, 0), (20, 1, 0), (200, 20, 1)),
            (1, 100, 10_000),
            "10000",
            "Klee and Minty, 1972 (memory)",
        ),
        (
            "0.75a - 150b + 0.02c - 6d, the program that cycles",
            ("0.75", -150, "0.02", -6),
            (("0.25", -60, "-0.04", 9), ("0.5", -90, "-0.02", 3), (0, 0, 1, 0)),
            (0, 0, 1),
            "0.05",
            "Beale, 1955 (memory)",
        ),
    ):
        exact = [Fraction(weight) for weight in weights]
        best = largest_sum(exact, [_fractions(row) for row in rows], _fractions(bounds))
        value = sum((w * x for w, x in zip(exact, best.values, strict=True)), Fraction(0))
        yield case("largest sum", words, value, published, "0", source)


def _fractions(numbers: Sequence[object]) -> list[Fraction]:
    return [Fraction(str(number)) for number in numbers]


def _units() -> Iterator[CheckValue]:
    for value, unit, other, published, tolerance, source in (
        ("1", "lb", "kg", "0.45359237", "0", _DEFINED),
        ("1", "in", "mm", "25.4", "0", _DEFINED),
        ("1", "kt", "km/h", "1.852", "0", _DEFINED),
        ("1", "lbf", "N", "4.4482216152605", "0", _DEFINED),
        ("1", "g", "m/s2", "9.80665", "0", _DEFINED),
        ("1", "ft", "m", "0.3048", "0", _DEFINED),
        ("1", "kt", "m/s", "0.5144444", "0.00000005", _SP811),
        ("1", "lb/ft2", "kg/m2", "4.882428", "0.0000005", _SP811),
        ("1", "lb/ft", "kg/m", "1.488164", "0.0000005", _SP811),
        ("1", "lb/in", "kg/m", "17.85797", "0.000005", _SP811),
        ("34", "kt", "km/h", "63", "0.5", "Beaufort 8 begins at 34 kt, 62 to 63 km/h (memory)"),
        ("1", "kg", "lb", "2.204623", "0.0000005", _SP811),
        ("1", "kN", "lbf", "224.8089", "0.00005", _SP811),
    ):
        yield case(
            "unit", f"{value} {unit} in {other}", of(value, unit).to(other), published, tolerance, source
        )
