"""Which element of a list is which element of another."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator

from procgen.source.document import Data

_ALIKE = 0.5
"""The share of its entries that a mapping in a list keeps at least where it is the same thing, changed."""


def aligned(was: list[Data], now: list[Data]) -> Iterator[tuple[int | None, int | None]]:
    """Which element is which: equal ones in order, then the same things changed that lie between them."""
    before, after = [text_of(one) for one in was], [text_of(one) for one in now]
    i = j = 0
    equal = _common(len(was), len(now), lambda one, other: before[one] == after[other])
    for a, b in [*equal, (len(was), len(now))]:
        for one, other in _between(was[i:a], now[j:b]):
            yield None if one is None else i + one, None if other is None else j + other
        if a < len(was) and b < len(now):
            yield a, b
        i, j = a + 1, b + 1


def _between(was: list[Data], now: list[Data]) -> Iterator[tuple[int | None, int | None]]:
    """What lies between equal elements: by turns where as many come as go, else mappings that are alike."""
    if len(was) == len(now):
        yield from ((index, index) for index in range(len(was)))
        return
    i = j = 0
    alike = _common(len(was), len(now), lambda one, other: _alike(was[one], now[other]))
    for a, b in [*alike, (len(was), len(now))]:
        yield from ((index, None) for index in range(i, a))
        yield from ((None, index) for index in range(j, b))
        if a < len(was) and b < len(now):
            yield a, b
        i, j = a + 1, b + 1


def _alike(was: Data, now: Data) -> bool:
    return isinstance(was, dict) and isinstance(now, dict) and likeness(was, now) >= _ALIKE


def likeness(was: dict[str, Data], now: dict[str, Data]) -> float:
    """The share of the entries of either mapping that both have alike; 0 where neither has any."""
    keys = was.keys() | now.keys()
    same = sum(text_of(was.get(key)) == text_of(now.get(key)) for key in keys)
    return same / len(keys) if keys else 0.0


def _common(was: int, now: int, same: Callable[[int, int], bool]) -> list[tuple[int, int]]:
    """A longest common subsequence of two lists of so many elements, by indexes."""
    rows = [[0] * (now + 1) for _ in range(was + 1)]
    for i in reversed(range(was)):
        for j in reversed(range(now)):
            rows[i][j] = rows[i + 1][j + 1] + 1 if same(i, j) else max(rows[i + 1][j], rows[i][j + 1])
    found, i, j = [], 0, 0
    while i < was and j < now:
        if same(i, j):
            found.append((i, j))
            i, j = i + 1, j + 1
        elif rows[i + 1][j] >= rows[i][j + 1]:
            i += 1
        else:
            j += 1
    return found


def text_of(data: Data) -> str:
    """Data as one text, the same for equal data."""
    return json.dumps(data, ensure_ascii=False, sort_keys=True)
