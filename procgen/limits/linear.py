"""The largest value of a linear sum under linear limits, exactly (the simplex method, Bland's rule)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Optimum:
    """The values that give the largest sum, and for each limit what one more of it would add to the sum.

    A price above zero marks a limit that stops the sum.
    """

    values: tuple[Fraction, ...]
    prices: tuple[Fraction, ...]


def largest_sum(
    weights: Sequence[Fraction], rows: Sequence[Sequence[Fraction]], bounds: Sequence[Fraction]
) -> Optimum:
    """Values x, each at least zero, with the largest sum of weights x, where each row x is at most its bound.

    Bounds are at least zero, so that doing nothing is allowed; `ValueError` where one is not, or where
    nothing stops the sum.
    """
    if any(bound < 0 for bound in bounds):
        raise ValueError("a bound is at least zero")
    count, limits = len(weights), len(rows)
    table = [
        [*map(Fraction, row), *(Fraction(i == j) for j in range(limits)), Fraction(bound)]
        for i, (row, bound) in enumerate(zip(rows, bounds, strict=True))
    ]
    gain = [*map(Fraction, weights), *([Fraction(0)] * (limits + 1))]
    basis = list(range(count, count + limits))
    while True:
        entering = next((j for j in range(count + limits) if gain[j] > 0), None)
        if entering is None:
            break
        leaving = _leaving(table, basis, entering)
        _pivot(table, gain, leaving, entering)
        basis[leaving] = entering
    at = {column: table[i][-1] for i, column in enumerate(basis)}
    values = tuple(at.get(j, Fraction(0)) for j in range(count))
    return Optimum(values, tuple(-gain[count + i] for i in range(limits)))


def _leaving(table: list[list[Fraction]], basis: list[int], entering: int) -> int:
    """The row that binds first as the entering value grows; of equal ones that of the least column."""
    ratios = [(row[-1] / row[entering], basis[i], i) for i, row in enumerate(table) if row[entering] > 0]
    if not ratios:
        raise ValueError("nothing stops the sum")
    return min(ratios)[2]


def _pivot(table: list[list[Fraction]], gain: list[Fraction], row: int, column: int) -> None:
    scale = table[row][column]
    table[row] = [value / scale for value in table[row]]
    for other in [*(line for i, line in enumerate(table) if i != row), gain]:
        factor = other[column]
        if factor:
            other[:] = [a - factor * b for a, b in zip(other, table[row], strict=True)]
