"""Sines and cosines that never say too much, so that what is reckoned from them stays on the safe side."""

from __future__ import annotations

import math
from decimal import Decimal, localcontext
from fractions import Fraction

_DIGITS = 30
"""Decimal places of a bound."""
_PI = Decimal("3.14159265358979323846264338327950288419716939937510")
_SQUARES = {0: Fraction(1), 30: Fraction(3, 4), 45: Fraction(1, 2), 60: Fraction(1, 4), 90: Fraction(0)}
"""Squares of cosines that are fractions: with the right angle's half and thirds, there are no others."""


def cosine_squared(degrees: Fraction) -> Fraction:
    """The square of the cosine of an angle from 0 to 90 degrees: exact where it is a fraction, else a bound
    from below that is short by less than 1e-29. Raises `ValueError` outside of that.
    """
    if not 0 <= degrees <= 90:
        raise ValueError("an angle here is from 0 to 90 degrees")
    if degrees in _SQUARES:
        return _SQUARES[int(degrees)]
    with localcontext() as context:
        context.prec = 50
        radians = _PI * degrees.numerator / degrees.denominator / 180
        square = _cosine(radians) ** 2
        scaled = int(
            (square - Decimal(10) ** -(_DIGITS + 8)).scaleb(_DIGITS).to_integral_value("ROUND_FLOOR")
        )
    return Fraction(max(scaled, 0), 10**_DIGITS)


def sine_squared(degrees: Fraction) -> Fraction:
    """The square of the sine, in the same way."""
    return cosine_squared(90 - degrees)


def root(square: Fraction) -> Fraction:
    """The square root of a fraction: exact where it is a fraction, else short by less than 1e-29."""
    numerator, denominator = math.isqrt(square.numerator), math.isqrt(square.denominator)
    if numerator**2 == square.numerator and denominator**2 == square.denominator:
        return Fraction(numerator, denominator)
    scale = 10**_DIGITS
    return Fraction(math.isqrt(square.numerator * scale**2 // square.denominator), scale)


def _cosine(radians: Decimal) -> Decimal:
    """The power series, to the precision of the context; for angles up to a right one."""
    term = total = Decimal(1)
    count = 0
    while True:
        count += 2
        term = -term * radians * radians / (count * (count - 1))
        if total + term == total:
            return total
        total += term
