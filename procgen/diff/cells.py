"""Limit tables compared: what a position takes, how much, and what governs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from procgen.diff.texts import compare_texts
from procgen.diff.walk import At, make
from procgen.results.difference import Anchor, Difference, DifferenceClass, DifferenceKind, NumberChange
from procgen.results.limits import LimitCell, LimitTable

Key = tuple[str, str]


def compare_tables(at: At, was: LimitTable, now: LimitTable) -> Iterator[Difference]:
    """Every difference between two limit tables of one hold.

    A candidate that does not govern shows where it comes from (in the hold or the unit type), not here.
    """
    before = {(cell.position, cell.unit_type): cell for cell in was.cells}
    after = {(cell.position, cell.unit_type): cell for cell in now.cells}
    for key in dict.fromkeys((*after, *before)):
        yield from _cell(at, key, before.get(key), after.get(key))


def candidates_differ(was: LimitTable, now: LimitTable) -> Iterator[Key]:
    """The cells that both tables accept and whose candidates differ though their limit does not."""
    before = {(cell.position, cell.unit_type): cell for cell in was.cells}
    for cell in now.cells:
        other = before.get((cell.position, cell.unit_type))
        if other is None or other.limit is None or cell.limit is None or other.limit != cell.limit:
            continue
        mine = {(one.kind, one.mass) for one in cell.candidates}
        if mine != {(one.kind, one.mass) for one in other.candidates}:
            yield cell.position, cell.unit_type


def _cell(at: At, key: Key, was: LimitCell | None, now: LimitCell | None) -> Iterator[Difference]:
    position, unit_type = key
    here = at.down(f"{position}", unit_type)
    low, high = (was.limit if was else None), (now.limit if now else None)
    if low is None and high is None:
        if was is not None and now is not None and _otherwise(was.reasons, now.reasons):
            yield _told(
                here,
                key,
                DifferenceKind.CHANGED,
                DifferenceClass.CHANGED,
                "it is refused for another reason",
                "; ".join(was.reasons),
                "; ".join(now.reasons),
            )
    elif low is None:
        text = f"at most {high}" if now is None else _limit(now)
        yield _told(
            here,
            key,
            DifferenceKind.ADDED,
            DifferenceClass.LOOSENED,
            "the position takes one more type",
            None,
            text,
        )
    elif high is None:
        yield _told(
            here,
            key,
            DifferenceKind.REMOVED,
            DifferenceClass.TIGHTENED,
            "the position takes one type fewer",
            _limit(was) if was else str(low),
            None,
        )
    elif was is not None and now is not None:
        yield from _limits(here, key, was, now)


def _otherwise(was: tuple[str, ...], now: tuple[str, ...]) -> bool:
    """Whether reasons say something else, however their numbers are written."""
    if len(was) != len(now):
        return True
    return any(compare_texts(one, other) is not None for one, other in zip(was, now, strict=True))


def _limits(here: At, key: Key, was: LimitCell, now: LimitCell) -> Iterator[Difference]:
    low, high = was.limit, now.limit
    if low is None or high is None:
        return
    if low != high:
        rose = high > low
        yield _told(
            here,
            key,
            DifferenceKind.CHANGED,
            DifferenceClass.LOOSENED if rose else DifferenceClass.TIGHTENED,
            f"the position may carry {'more' if rose else 'less'}",
            _limit(was),
            _limit(now),
            NumberChange(low, high),
        )
    elif _governs(was) != _governs(now):
        yield _told(
            here,
            key,
            DifferenceKind.CHANGED,
            DifferenceClass.CHANGED,
            "the same limit, but something else governs it",
            _limit(was),
            _limit(now),
        )


def _governs(cell: LimitCell) -> str:
    return cell.governing.kind if cell.governing else ""


def _limit(cell: LimitCell) -> str:
    """The limit rounded down as on the pages, and what governs it."""
    if cell.governing is None or cell.limit is None:
        return "not accepted"
    mass = cell.limit
    shown = str(mass) if mass.written else mass.down()
    return f"{shown} ({cell.governing.title})"


def _told(
    here: At,
    key: Key,
    kind: DifferenceKind,
    classed: DifferenceClass,
    why: str,
    was: str | None,
    now: str | None,
    number: NumberChange | None = None,
) -> Difference:
    position, unit_type = key
    found = make(here, kind, classed, why, was, now, number)
    anchor = Anchor("hold", here.hold, f"limit:{position}.{unit_type}")
    return replace(found, subject=f"position {position}: {unit_type} at most", anchors=(anchor,))
