"""Whether a condition on sine and cosine holds at every angle of a range, decided in whole numbers.

With u = tan(a / 2), sine and cosine are 2u / (1 + u^2) and (1 - u^2) / (1 + u^2), so a condition that is
homogeneous in sine, cosine and one becomes a polynomial in u. A polynomial whose Bernstein coefficients over
an interval are all at least zero is nowhere below zero in it; the interval is halved until that, or a point
where the condition fails, is found.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import comb, lcm

Polynomial = tuple[int, ...]
"""Coefficients from the constant upwards."""

SINE: Polynomial = (0, 2, 0)
COSINE: Polynomial = (1, 0, -1)
ONE: Polynomial = (1, 0, 1)
"""Each times 1 + u^2: products of equally many of these can be added."""

_DEPTH = 60
"""How often an interval is halved before a condition that cannot be decided counts as failed."""


def times(*factors: Polynomial | int) -> Polynomial:
    """The product of polynomials and whole numbers."""
    result: tuple[int, ...] = (1,)
    for factor in factors:
        other = (factor,) if isinstance(factor, int) else factor
        product = [0] * (len(result) + len(other) - 1)
        for i, a in enumerate(result):
            for j, b in enumerate(other):
                product[i + j] += a * b
        result = tuple(product)
    return result


def plus(*terms: Polynomial) -> Polynomial:
    """The sum of polynomials."""
    length = max(len(term) for term in terms)
    return tuple(sum(term[i] for term in terms if i < len(term)) for i in range(length))


@dataclass(frozen=True, slots=True)
class Clause:
    """One of `ways` must be at least zero at every u from 0 to `end`; `name` says what it is about."""

    name: str
    ways: tuple[Polynomial, ...]
    end: Fraction = Fraction(1)


def fails_at(clause: Clause) -> Fraction | None:
    """A u at which the clause fails; None where it holds at every u from 0 to its end.

    Where it holds by so little that it cannot be decided, it counts as failed: the answer is on the safe
    side.
    """
    start = [_bernstein(way, clause.end) for way in clause.ways]
    waiting = [(Fraction(0), clause.end, start, 0)]
    while waiting:
        low, high, ways, depth = waiting.pop()
        if any(all(coefficient >= 0 for coefficient in way) for way in ways):
            continue
        if all(way[0] < 0 for way in ways):
            return low
        if all(way[-1] < 0 for way in ways) or depth == _DEPTH:
            return high
        middle = (low + high) / 2
        halves = [_halved(way) for way in ways]
        waiting.append((middle, high, [right for _, right in halves], depth + 1))
        waiting.append((low, middle, [left for left, _ in halves], depth + 1))
    return None


def _bernstein(polynomial: Polynomial, end: Fraction) -> tuple[int, ...]:
    """Bernstein coefficients over 0 to `end`, times a number above zero that makes them whole."""
    degree = len(polynomial) - 1
    p, q = end.numerator, end.denominator
    scaled = [a * p**k * q ** (degree - k) for k, a in enumerate(polynomial)]
    whole = lcm(*(comb(degree, k) for k in range(degree + 1)))
    return tuple(
        sum(comb(i, k) * (whole // comb(degree, k)) * scaled[k] for k in range(i + 1))
        for i in range(degree + 1)
    )


def _halved(coefficients: Sequence[int]) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """The coefficients over both halves of an interval (de Casteljau), times 2 to the degree."""
    degree = len(coefficients) - 1
    row, left, right = list(coefficients), [], []
    for level in range(degree + 1):
        left.append(row[0] << (degree - level))
        right.append(row[-1] << (degree - level))
        row = [a + b for a, b in pairwise(row)]
    return tuple(left), tuple(reversed(right))
