"""The tables of a hold that follow from its data, compared by their numbers."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from procgen.diff.walk import At, make
from procgen.results.difference import Anchor, Difference, DifferenceClass, DifferenceKind
from procgen.results.figures import Figure
from procgen.results.hold_tables import HoldTables, MissingRow
from procgen.units import Dimension, Quantity

_LOOSER, _STRICTER, _OTHER = DifferenceClass.LOOSENED, DifferenceClass.TIGHTENED, DifferenceClass.CHANGED
_WHY = {
    _LOOSER: "more is allowed, or less is asked for, than the table said before",
    _STRICTER: "less is allowed, or more is asked for, than the table said before",
    _OTHER: "the table has other rows, or other times",
}


@dataclass(frozen=True, slots=True)
class _Entry:
    """One number of a table: how it is shown, its size (None: nothing allowed), whether it is asked for."""

    shown: str
    size: Quantity | int | None
    demand: bool = False


@dataclass(frozen=True, slots=True)
class _Part:
    """What is told as one: its path, its words, what it marks, its numbers by what they are of."""

    path: tuple[str, ...]
    subject: str
    element: str
    entries: Mapping[str, _Entry]


def compare_hold_tables(at: At, was: HoldTables, now: HoldTables) -> Iterator[Difference]:
    """Every zone, set of missing items, door and table of figures in which a number is another.

    How a number is reckoned and written is not compared here: a number of the data says why.
    """
    before = {part.path: part for part in _parts(was)}
    after = {part.path: part for part in _parts(now)}
    for path in dict.fromkeys((*after, *before)):
        old, new = before.get(path), after.get(path)
        part = new or old
        if part is not None:
            yield from _told(at, part, old.entries if old else {}, new.entries if new else {})


def _told(at: At, part: _Part, was: Mapping[str, _Entry], now: Mapping[str, _Entry]) -> Iterator[Difference]:
    differing = [name for name in dict.fromkeys((*now, *was)) if not _same(was.get(name), now.get(name))]
    if not differing:
        return
    classes = {_class(was.get(name), now.get(name)) for name in differing}
    classed = min(classes, key=list(DifferenceClass).index)
    kind = DifferenceKind.CHANGED if was and now else DifferenceKind.ADDED if now else DifferenceKind.REMOVED
    told = make(
        at.down(*part.path), kind, classed, _WHY[classed], _words(was, differing), _words(now, differing)
    )
    yield replace(told, subject=part.subject, anchors=(Anchor("hold", at.hold, part.element),))


def _same(was: _Entry | None, now: _Entry | None) -> bool:
    if was is None or now is None:
        return was is now
    return was.size == now.size


def _class(was: _Entry | None, now: _Entry | None) -> DifferenceClass:
    if was is None or now is None:
        return _OTHER
    low, high = was.size, now.size
    if low is None or high is None:
        rose = low is None
    elif isinstance(low, Quantity) and isinstance(high, Quantity):
        if low.dimension is not high.dimension:
            return _LOOSER
        if now.demand and high.dimension is Dimension.TIME:
            return _OTHER  # how long the work takes is no limit
        rose = high.si > low.si
    elif isinstance(low, int) and isinstance(high, int):
        rose = high > low
    else:
        return _LOOSER
    if now.demand and (low is not None and high is not None):
        rose = not rose
    return _LOOSER if rose else _STRICTER


def _words(entries: Mapping[str, _Entry], names: list[str]) -> str | None:
    return "; ".join(f"{name}: {entries[name].shown}" for name in names if name in entries) or None


def _parts(tables: HoldTables) -> Iterator[_Part]:
    for name, most in tables.zones.items():
        entry = {"at most": _Entry(most.total.down(), most.total)}
        yield _Part(("tables", "zones", name), f"the most that zone {name} takes", f"zones:{name}", entry)
    by_out: dict[tuple[str, ...], dict[str, _Entry]] = {}
    for row in tables.missing:
        by_out.setdefault(row.out, {})[f"{row.position} {row.unit_type}"] = _left(row)
    for out, entries in by_out.items():
        words = " and ".join(out)
        yield _Part(
            ("tables", "missing", "+".join(out)), f"what is left without {words}", "tables:missing", entries
        )
    for door, table in tables.packages.items():
        pieces = {
            f"{one.width} wide, {one.height} high": _Entry(
                one.length.down() if one.length else "none", one.length
            )
            for row in table.rows
            for one in row
        }
        yield _Part(("tables", "packages", door), f"pieces through {door}", "tables:packages", pieces)
    for figures in tables.figures:
        numbers = {
            ", ".join((*row.labels, column)): _number(figure)
            for row in figures.rows
            for column, figure in zip(figures.columns, row.figures, strict=True)
        }
        yield _Part(("tables", "figures", figures.name), figures.title, f"figures:{figures.name}", numbers)


def _left(row: MissingRow) -> _Entry:
    if row.cell is None:
        return _Entry(f"{row.before.down()}, as with it", row.before)
    limit = row.cell.limit
    return _Entry("not usable", None) if limit is None else _Entry(limit.down(), limit)


def _number(figure: Figure) -> _Entry:
    size = figure.count if figure.count is not None else figure.number
    return _Entry(figure.shown, size, figure.demand)
