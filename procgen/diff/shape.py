"""The shape of what is compared: what a list is (a set, an order, named things) and what can be ranked."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import fields, is_dataclass
from enum import Enum
from fractions import Fraction
from typing import Any

from procgen.diagnostics import Place
from procgen.model import step as steps
from procgen.model.stated import Span1, Stated
from procgen.model.words import LoadDirection, RestraintState, Stand
from procgen.units import Quantity

ORDERED = frozenset(
    {
        "Lane.through",
        "Control.positions",
        "Drive_.through",
        "Push.through",
        "Stow.through",
        "SectionOutline.corners",
    }
)
"""Lists of plain values whose order says something; every other list of plain values is a set."""

NAMED_BY = ("name", "code", "identity", "role", "about", "title")
"""The first of these fields that a record has names it in a list."""

_RANKED: Mapping[type[Enum], Sequence[str]] = {
    RestraintState: ("lowered", "raised"),
    Stand: ("outside", "inside"),
}
_SIGNALS = ("note", "caution", "warning")


def record_of(value: object) -> str:
    """The name of a record's kind, as the table of directions calls it."""
    name = type(value).__name__
    return "Drive_" if isinstance(value, steps.Drive) else name


def compared_fields(value: Any) -> list[str]:
    """The fields of a record that count: those in its equality, save its own name."""
    return [field.name for field in fields(value) if field.compare and field.name not in ("name", "code")]


def place_of(value: object, otherwise: Place) -> Place:
    """Where a value was written; the place of what it stands in where it has none itself."""
    place = getattr(value, "place", None)
    return place if isinstance(place, Place) and place.file else otherwise


def rank(value: object) -> Fraction | None:
    """The value as a number by which it can be called more or less; None where it has no such rank."""
    if isinstance(value, Stated):
        value = value.quantity
    if isinstance(value, Quantity):
        return value.si
    if isinstance(value, bool | int | Fraction):
        return Fraction(value)
    for kind, words in _RANKED.items():
        if isinstance(value, kind):
            return Fraction(words.index(str(value)))
    if isinstance(value, str) and str(value) in _SIGNALS:
        return Fraction(_SIGNALS.index(str(value)))
    return None


def quantity_in(value: object) -> Quantity | None:
    """The quantity that a value is."""
    if isinstance(value, Stated):
        return value.quantity
    return value if isinstance(value, Quantity) else None


def name_in_list(item: object) -> str | None:
    """What names an element of a list; None where only its place in the list does."""
    if isinstance(item, Enum):
        return str(item.value)
    if isinstance(item, str):
        return item
    if isinstance(item, tuple) and item:
        first = item[0]
        if all(isinstance(part, str) for part in item):
            return "-".join(item)
        if isinstance(first, Quantity):
            return f"{first.dimension}-{first.si}"
        return first if isinstance(first, str) else None
    if is_dataclass(item):
        for field in NAMED_BY:
            named = getattr(item, field, None)
            if isinstance(named, str) and named:
                return str(named)
    return None


def keyed(items: Iterable[object]) -> dict[str, object]:
    """The elements of a list by name; a name that comes again carries its count, one without its place."""
    result: dict[str, object] = {}
    for index, item in enumerate(items, start=1):
        name = name_in_list(item) or f"{index}"
        key, count = name, 1
        while key in result:
            count += 1
            key = f"{name}.{count}"
        result[key] = item
    return result


def is_list(value: object) -> bool:
    """Whether a value is a list or a set of things."""
    return isinstance(value, tuple | list | frozenset | set)


def in_words(value: object) -> str:
    """A value as a reviewer reads it."""
    if value is None:
        return "nothing"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Stated):
        return str(value.quantity)
    if isinstance(value, Span1):
        return f"{value.low} to {value.high}"
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, Mapping):
        return ", ".join(f"{in_words(key)}: {in_words(one)}" for key, one in value.items()) or "nothing"
    if isinstance(value, frozenset | set):
        return ", ".join(sorted(in_words(one) for one in value)) or "nothing"
    if isinstance(value, tuple | list):
        return ", ".join(in_words(one) for one in value) or "nothing"
    if is_dataclass(value) and not isinstance(value, type):
        return _record_in_words(value)
    return str(value)


def _record_in_words(value: Any) -> str:
    if isinstance(value, Quantity):
        return str(value)
    if {"source", "where"} <= {field.name for field in fields(value)}:
        return str(value)
    parts = []
    for field in fields(value):
        item = getattr(value, field.name)
        if (
            field.compare
            and item not in (None, (), "", False)
            and not (isinstance(item, Mapping) and not item)
        ):
            said = in_words(item)
            parts.append(said if field.name in NAMED_BY else f"{field.name.replace('_', ' ')} {said}")
    return "; ".join(parts)


def sorted_directions(keys: Iterable[object]) -> list[object]:
    """Keys of a mapping in a fixed order: directions in their own, the others as they come."""
    found = list(keys)
    if all(isinstance(key, LoadDirection) for key in found):
        return [key for key in LoadDirection if key in found]
    return found
