"""Exact quantities: a number, its unit, and the text it was written in.

Values are fractions and keep the unit they were written in; nothing is rounded until it is shown,
and then the caller says which way. Conversion factors are the exact international definitions
(pound 0.453 592 37 kg, inch 25.4 mm, nautical mile 1852 m, standard gravity 9.806 65 m/s2,
pound-force 4.448 221 615 260 5 N); they are given from memory of NIST SP 811, appendix B.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction
from functools import cached_property


class Dimension(StrEnum):
    """What a quantity measures."""

    MASS = "mass"
    LENGTH = "length"
    SPEED = "speed"
    ACCELERATION = "acceleration"
    FORCE = "force"
    RUNNING_LOAD = "mass per length"
    AREA_LOAD = "mass per area"
    TIME = "time"
    RATIO = "ratio"


STANDARD_GRAVITY = Fraction("9.80665")
"""g0 in m/s2 (exact by definition)."""

_LB = Fraction("0.45359237")
_IN = Fraction("0.0254")
_FT = 12 * _IN


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit of measure; `factor` turns a number in it into the SI unit of its dimension."""

    symbol: str
    dimension: Dimension
    factor: Fraction


def _table() -> dict[str, Unit]:
    d = Dimension
    rows: list[tuple[str, Dimension, Fraction]] = [
        ("kg", d.MASS, Fraction(1)),
        ("t", d.MASS, Fraction(1000)),
        ("lb", d.MASS, _LB),
        ("m", d.LENGTH, Fraction(1)),
        ("cm", d.LENGTH, Fraction(1, 100)),
        ("mm", d.LENGTH, Fraction(1, 1000)),
        ("in", d.LENGTH, _IN),
        ("ft", d.LENGTH, _FT),
        ("m/s", d.SPEED, Fraction(1)),
        ("km/h", d.SPEED, Fraction(1000, 3600)),
        ("kt", d.SPEED, Fraction(1852, 3600)),
        ("g", d.ACCELERATION, STANDARD_GRAVITY),
        ("m/s2", d.ACCELERATION, Fraction(1)),
        ("N", d.FORCE, Fraction(1)),
        ("daN", d.FORCE, Fraction(10)),
        ("kN", d.FORCE, Fraction(1000)),
        ("lbf", d.FORCE, _LB * STANDARD_GRAVITY),
        ("kg/m", d.RUNNING_LOAD, Fraction(1)),
        ("lb/in", d.RUNNING_LOAD, _LB / _IN),
        ("lb/ft", d.RUNNING_LOAD, _LB / _FT),
        ("kg/m2", d.AREA_LOAD, Fraction(1)),
        ("lb/ft2", d.AREA_LOAD, _LB / (_FT * _FT)),
        ("s", d.TIME, Fraction(1)),
        ("min", d.TIME, Fraction(60)),
        ("h", d.TIME, Fraction(3600)),
        ("%", d.RATIO, Fraction(1, 100)),
    ]
    return {symbol: Unit(symbol, dimension, factor) for symbol, dimension, factor in rows}


UNITS = _table()
"""Every unit that a description may be written in, by symbol."""


class QuantityError(ValueError):
    """A text that is not a quantity of the dimension asked for.

    `kind` is one of `no-unit`, `unknown-unit`, `wrong-dimension`, `not-a-number`.
    """

    def __init__(self, kind: str, message: str, suggestion: str) -> None:
        super().__init__(message)
        self.kind = kind
        self.suggestion = suggestion


@dataclass(frozen=True, eq=False)
class Quantity:
    """A number with its unit. Equality and order compare what is measured, not how it is written."""

    # No slots: what it is in SI units is asked for all the time, and reckoned once.

    value: Fraction
    unit: Unit
    written: str = field(default="")

    @cached_property
    def si(self) -> Fraction:
        """The value in the SI unit of the dimension (kg, m, m/s, m/s2, N, kg/m, kg/m2, s)."""
        return self.value * self.unit.factor

    @property
    def dimension(self) -> Dimension:
        """What is measured."""
        return self.unit.dimension

    def to(self, symbol: str) -> Quantity:
        """The same quantity in another unit of its dimension, exactly."""
        unit = UNITS[symbol]
        if unit.dimension is not self.dimension:
            raise ValueError(f"{self.unit.symbol} cannot be turned into {symbol}")
        return Quantity(self.si / unit.factor, unit)

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Quantity):
            return NotImplemented
        return self.dimension is other.dimension and self.si == other.si

    def __lt__(self, other: Quantity) -> bool:
        return self.si < self._of_one_kind(other)

    def __le__(self, other: Quantity) -> bool:
        return self.si <= self._of_one_kind(other)

    def __gt__(self, other: Quantity) -> bool:
        return self.si > self._of_one_kind(other)

    def __ge__(self, other: Quantity) -> bool:
        return self.si >= self._of_one_kind(other)

    def _of_one_kind(self, other: Quantity) -> Fraction:
        """The SI value of another quantity; raises `ValueError` where the two measure different things."""
        if self.dimension is not other.dimension:
            raise ValueError(f"cannot compare {self.dimension} with {other.dimension}")
        return other.si

    def __hash__(self) -> int:
        return hash((self.dimension, self.si))

    def __str__(self) -> str:
        return self.written or f"{_plain(self.value)} {self.unit.symbol}"

    def down(self, decimals: int = 0) -> str:
        """Text of a limit: cut to `decimals` places, never above the exact value."""
        return f"{_rounded(self.value, decimals, math.floor)} {self.unit.symbol}"

    def up(self, decimals: int = 0) -> str:
        """Text of a demand: raised to `decimals` places, never below the exact value."""
        return f"{_rounded(self.value, decimals, math.ceil)} {self.unit.symbol}"


_NUMBER = re.compile(r"(?P<number>[+-]?(?:[0-9]{1,3}(?:[ \u00a0\u202f][0-9]{3})+|[0-9]+)(?:\.[0-9]+)?)")
_NUMBER_GOES_ON = re.compile(r"[,.'/0-9]|[eE][+-]?[0-9]")
_LONGEST = 40
_SPACES = re.compile(r"[ \u00a0\u202f]+")


def quantity(text: str, dimension: Dimension) -> Quantity:
    """Read a quantity such as `1 588 kg` or `2.05 m`.

    Raises `QuantityError` when the text has no unit, an unknown one, or one of another dimension.
    """
    stripped = text.strip()
    match = _NUMBER.match(stripped)
    examples = ", ".join(u.symbol for u in UNITS.values() if u.dimension is dimension)
    if match is None:
        raise QuantityError(
            "not-a-number",
            f"“{text}” is not a quantity",
            f"write a number, a space and a unit of {dimension} ({examples})",
        )
    if len(match["number"]) > _LONGEST:
        raise QuantityError(
            "not-a-number",
            f"“{text[:_LONGEST]}…” has too many digits",
            f"write a number of at most {_LONGEST} digits",
        )
    symbol = stripped[match.end() :].strip()
    if symbol == "":
        raise QuantityError("no-unit", f"“{text}” has no unit", f"add a unit of {dimension}: {examples}")
    if _NUMBER_GOES_ON.match(symbol):
        raise QuantityError(
            "not-a-number",
            f"“{text}” is not a number we read",
            "write the decimal point as “.” and thousands with a space, as in “1 588.5 kg”",
        )
    unit = UNITS.get(symbol)
    if unit is None:
        meant = _meant(symbol, dimension)
        way_out = (
            f"did you mean {meant}? The units of {dimension} are {examples}"
            if meant
            else f"use one of {examples}"
        )
        raise QuantityError("unknown-unit", f"“{symbol}” is not a unit we know", way_out)
    if unit.dimension is not dimension:
        raise QuantityError(
            "wrong-dimension",
            f"“{text}” is a {unit.dimension}, but a {dimension} belongs here",
            f"use one of {examples}",
        )
    number = Fraction(_SPACES.sub("", match["number"]))
    return Quantity(number, unit, f"{' '.join(match['number'].split())} {symbol}")


_WORDS = {
    "kgs": "kg",
    "kilo": "kg",
    "kilos": "kg",
    "tonne": "t",
    "tonnes": "t",
    "lbs": "lb",
    "pound": "lb",
    "pounds": "lb",
    "metre": "m",
    "metres": "m",
    "meter": "m",
    "meters": "m",
    "inch": "in",
    "inches": "in",
    "foot": "ft",
    "feet": "ft",
    "kts": "kt",
    "knot": "kt",
    "knots": "kt",
    "kn": "kN",
    "newton": "N",
    "newtons": "N",
    "percent": "%",
}
"""What writers write for a unit."""


def _meant(symbol: str, dimension: Dimension) -> str | None:
    """The unit that a word most likely stands for, where it measures what belongs here."""
    folded = {known.casefold(): known for known in UNITS}
    meant = _WORDS.get(symbol.casefold()) or folded.get(symbol.casefold())
    return meant if meant is not None and UNITS[meant].dimension is dimension else None


def of(value: Fraction | int | str, symbol: str) -> Quantity:
    """A computed quantity in the unit `symbol`."""
    return Quantity(Fraction(value), UNITS[symbol])


def _rounded(value: Fraction, decimals: int, towards: Callable[[Fraction], int]) -> str:
    scale = 10**decimals
    whole = towards(value * scale)
    return _grouped(Fraction(whole, scale), decimals)


def _grouped(value: Fraction, decimals: int) -> str:
    scaled = abs(value) * 10**decimals
    digits = str(int(scaled)).rjust(decimals + 1, "0")
    whole, part = (digits[:-decimals], digits[-decimals:]) if decimals else (digits, "")
    groups = f"{int(whole):,}".replace(",", " ")
    sign = "-" if value < 0 else ""
    return sign + groups + (f".{part}" if part else "")


def _plain(value: Fraction) -> str:
    """Exact decimal text where there is one, else the fraction."""
    denominator, twos, fives = value.denominator, 0, 0
    while denominator % 2 == 0:
        denominator, twos = denominator // 2, twos + 1
    while denominator % 5 == 0:
        denominator, fives = denominator // 5, fives + 1
    if denominator != 1:
        return f"{value.numerator}/{value.denominator}"
    return _grouped(value, max(twos, fives))
