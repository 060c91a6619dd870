"""Which of several things stand in another order."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence


def moved(was: Sequence[str], now: Sequence[str]) -> tuple[str, ...]:
    """The fewest of the common things that must move to turn one order into the other, in the new order.

    Neither sequence may hold a thing twice.
    """
    common = set(was) & set(now)
    rank = {name: number for number, name in enumerate(name for name in was if name in common)}
    order = [name for name in now if name in common]
    staying = _longest_rise([rank[name] for name in order])
    return tuple(name for name in order if rank[name] not in staying)


def _longest_rise(numbers: Sequence[int]) -> frozenset[int]:
    """One longest rising subsequence."""
    tails: list[int] = []
    before: dict[int, int | None] = {}
    for number in numbers:
        at = bisect_left(tails, number)
        before[number] = tails[at - 1] if at else None
        tails[at : at + 1] = [number]
    found: list[int] = []
    last = tails[-1] if tails else None
    while last is not None:
        found.append(last)
        last = before[last]
    return frozenset(found)
