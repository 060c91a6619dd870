"""Two trees of records compared field by field: numbers by value, lists as sets, named things by name."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, is_dataclass
from typing import Any

from procgen.diagnostics import NOWHERE, Place
from procgen.diff.direction import UNKNOWN, Direction
from procgen.diff.direction_kinds import INSIDE
from procgen.diff.directions import direction_of
from procgen.diff.order import moved
from procgen.diff.shape import (
    ORDERED,
    compared_fields,
    in_words,
    is_list,
    keyed,
    place_of,
    quantity_in,
    rank,
    record_of,
)
from procgen.diff.texts import compare_texts, unmarked
from procgen.diff.words import subject
from procgen.model.stated import Stated
from procgen.results.difference import (
    Anchor,
    Difference,
    DifferenceClass,
    DifferenceKind,
    NumberChange,
    Side,
)

Handler = Callable[["At", Any, Any], Iterator[Difference]]


@dataclass(frozen=True, slots=True)
class At:
    """Where the walk is.

    `path` leads there from `root` (a hold's name, or `station`); `record` and `field` are those by which the
    table of directions knows what stands here; the places are where both sides were written.
    """

    root: str
    path: tuple[str, ...] = ()
    record: str = ""
    field: str = ""
    was_place: Place = NOWHERE
    now_place: Place = NOWHERE
    hold: str = ""

    @property
    def identity(self) -> str:
        """The path as one text that a shell takes without quotes."""
        return "/".join(_plain(part) for part in (self.root, *self.path))

    @property
    def direction(self) -> Direction:
        """Which way is looser here."""
        return direction_of(self.record, self.field)

    def down(self, *path: str, was: object = None, now: object = None) -> At:
        """One or more steps further down; the record and field stay."""
        return At(
            self.root,
            (*self.path, *path),
            self.record,
            self.field,
            place_of(was, self.was_place),
            place_of(now, self.now_place),
            self.hold,
        )

    def of(self, record: str, field: str) -> At:
        """The same place, known to the table by this record and field."""
        return At(self.root, self.path, record, field, self.was_place, self.now_place, self.hold)


def _plain(part: str) -> str:
    kept = (letter if letter.isalnum() or letter in "-_.:+@" else "-" for letter in part)
    return "".join(kept).strip("-") or "-"


def walk(at: At, was: Any, now: Any, handlers: Mapping[type, Handler]) -> Iterator[Difference]:
    """Every difference between two values of one field. `handlers` take over where they know better."""
    if was is now:
        return
    handler = handlers.get(type(now) if now is not None else type(was))
    if handler is not None and was is not None and now is not None:
        yield from handler(at, was, now)
    elif _absent(was) or _absent(now):
        if _absent(was) != _absent(now):
            yield came_or_went(at, was, now)
    elif isinstance(now, Stated) and isinstance(was, Stated):
        yield from value(at.down(was=was, now=now), was, now)
        if was.source != now.source:
            source = at.down("source", was=was, now=now).of("Stated", "source")
            yield from value(source, str(was.source or ""), str(now.source or ""))
    elif isinstance(now, Mapping) and isinstance(was, Mapping):
        yield from _mapping(at, was, now, handlers)
    elif is_list(now) and is_list(was):
        yield from _list(at, was, now, handlers)
    elif is_dataclass(now) and type(now) is type(was) and quantity_in(now) is None:
        yield from fields_of(at, was, now, handlers)
    else:
        yield from value(at, was, now)


def fields_of(
    at: At, was: Any, now: Any, handlers: Mapping[type, Handler], skip: frozenset[str] = frozenset()
) -> Iterator[Difference]:
    """Every difference between two records of one kind, save in the fields that `skip` names."""
    for field in compared_fields(now):
        if field in skip:
            continue
        below = at.down(field.replace("_", "-"), was=was, now=now)
        if not _geometry(now):
            below = below.of(record_of(now), field)
        yield from walk(below, getattr(was, field), getattr(now, field), handlers)


def _geometry(record: object) -> bool:
    """Rectangles and spans say nothing themselves: what they are the extent of says which way is looser."""
    return type(record).__name__ in ("Rectangle", "Span1")


def _absent(thing: object) -> bool:
    return thing is None


def value(at: At, was: Any, now: Any) -> Iterator[Difference]:
    """The difference between two values that are compared as a whole."""
    if was == now or unmarked(was) == now:
        return
    direction, number = at.direction, None
    low, high = rank(was), rank(now)
    if type(was) is type(now) is str and direction is UNKNOWN and compare_texts(was, now) is None:
        return
    if low is not None and high is not None and low != high:
        classed = direction.up if high > low else direction.down
        before, after = quantity_in(was), quantity_in(now)
        if before is not None and after is not None:
            number = NumberChange(before, after)
    else:
        classed = direction.changed
    why = direction.because(classed)
    yield make(at, DifferenceKind.CHANGED, classed, why, in_words(was), in_words(now), number)


def came_or_went(at: At, was: object, now: object) -> Difference:
    """Something that only one side has."""
    direction = at.direction
    added, removed = direction.added, direction.removed
    if direction is INSIDE and rank(now if was is None else was) == 0:
        # Worked from outside, or no more: either way nobody goes in for it.
        added = removed = DifferenceClass.CHANGED
    if was is None:
        here = at.down(now=now)
        return make(here, DifferenceKind.ADDED, added, direction.because(added), None, in_words(now), None)
    here = at.down(was=was)
    why = direction.because(removed)
    return make(here, DifferenceKind.REMOVED, removed, why, in_words(was), None, None)


def make(
    at: At,
    kind: DifferenceKind,
    classed: DifferenceClass,
    why: str,
    was: str | None,
    now: str | None,
    number: NumberChange | None = None,
) -> Difference:
    """A difference at a place of the tree."""
    return Difference(
        identity=at.identity,
        kind=kind,
        classed=classed,
        subject=subject(at.path),
        why=why,
        was=None if was is None else Side(unmarked(was), at.was_place),
        now=None if now is None else Side(now, at.now_place),
        number=number,
        hold=at.hold,
        anchors=_anchors(at),
    )


def _anchors(at: At) -> tuple[Anchor, ...]:
    if not at.hold:
        return (Anchor("station", at.root, ":".join(at.path[:2])),)
    return (Anchor("hold", at.hold, ":".join(at.path[:2])),)


def _mapping(
    at: At, was: Mapping[Any, Any], now: Mapping[Any, Any], handlers: Mapping[type, Handler]
) -> Iterator[Difference]:
    before = {str(key): one for key, one in was.items()}
    after = {str(key): one for key, one in now.items()}
    for name in dict.fromkeys((*after, *before)):
        yield from walk(at.down(name), before.get(name), after.get(name), handlers)
    if all(is_dataclass(one) and hasattr(one, "place") for one in (*before.values(), *after.values())):
        yield from orders(at, list(before), list(after))


def orders(at: At, was: list[str], now: list[str]) -> Iterator[Difference]:
    """Things that stand in another order."""
    for name in moved(was, now):
        yield make(
            at.down(name, "order"),
            DifferenceKind.MOVED,
            at.direction.moved,
            "the same things in another order",
            _standing(was, name),
            _standing(now, name),
        )


def _standing(order: list[str], name: str) -> str:
    at = order.index(name)
    return f"after {order[at - 1]}" if at else "first"


def _list(at: At, was: Any, now: Any, handlers: Mapping[type, Handler]) -> Iterator[Difference]:
    direction = at.direction
    if direction.empty_is_all and bool(was) != bool(now):
        classed = direction.removed if not was else direction.added
        said = "the first one restricts" if not was else "with none left, everything counts"
        # For a list of what counts, fewer is looser; the direction's own words say which.
        yield make(
            at, DifferenceKind.CHANGED, classed, said, in_words(was) if was else "all", _or_all(now), None
        )
        return
    if f"{at.record}.{at.field}" in ORDERED:
        yield from _ordered(at, was, now, handlers)
        return
    ordered = not isinstance(now, frozenset | set)
    before = keyed(was if ordered else sorted(was))
    after = keyed(now if ordered else sorted(now))
    for name in dict.fromkeys((*after, *before)):
        yield from _element(at.down(name), before.get(name), after.get(name), handlers)
    if ordered and not all(isinstance(one, tuple) for one in now):
        yield from orders(at, list(before), list(after))


def _or_all(value: Any) -> str:
    return in_words(value) if value else "all"


def _element(at: At, was: Any, now: Any, handlers: Mapping[type, Handler]) -> Iterator[Difference]:
    pair = isinstance(was, tuple) and isinstance(now, tuple) and len(was) == len(now)
    if pair and not all(isinstance(part, str) for part in now):
        for number, (one, other) in enumerate(zip(was, now, strict=True), start=1):
            yield from walk(at if number == len(now) else at.down(str(number)), one, other, handlers)
    else:
        yield from walk(at, was, now, handlers)


def _ordered(at: At, was: Any, now: Any, handlers: Mapping[type, Handler]) -> Iterator[Difference]:
    pairs = [one for one in (*was, *now) if not isinstance(one, str)]
    if not pairs:
        yield from value(at, in_words(tuple(was)), in_words(tuple(now)))
        return
    before, after = keyed(was), keyed(now)
    for name in dict.fromkeys((*after, *before)):
        yield from _element(at.down(name), before.get(name), after.get(name), handlers)
