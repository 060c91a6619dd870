"""What the types of records' fields are made of: a closed list, so that nothing is written by guess."""

from __future__ import annotations

import dataclasses
import types
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from functools import cache
from typing import Any, Union, get_args, get_origin, get_type_hints

from procgen.units import Quantity, Unit

PLAIN = (str, int, bool)
"""Types that JSON has itself. Floating-point numbers are not among them: they are not exact."""

EXACT: tuple[type, ...] = (Fraction, Unit, Quantity)
"""Numbers and units, each with a form of its own."""


@dataclass(frozen=True, slots=True)
class Many:
    """A list of one kind; `is_set` where order means nothing."""

    item: Any
    is_set: bool = False


@dataclass(frozen=True, slots=True)
class Row:
    """A tuple of fixed length."""

    items: tuple[Any, ...]


@dataclass(frozen=True, slots=True)
class Pairs:
    """A mapping. Its order is kept: it is the order of the description."""

    key: Any
    value: Any


@dataclass(frozen=True, slots=True)
class Choice:
    """One of several types, or nothing (`none`). Records are told apart by the names of their classes."""

    plain: tuple[type, ...]
    records: tuple[type, ...]
    others: tuple[Any, ...]
    none: bool


@dataclass(frozen=True, slots=True)
class Slot:
    """One field of a record class; `default` is a function where the field has one, else None."""

    name: str
    hint: Any
    default: Any

    @property
    def has_default(self) -> bool:
        """Whether the field may be left out."""
        return self.default is not None


Form = Many | Row | Pairs | Choice | type
"""What a field holds: a compound form, or a class (a record, an enumeration, an exact or a plain type)."""


@cache
def form(hint: Any) -> Form:
    """The form of a type hint. Raises `TypeError` for a type that records do not hold."""
    origin, arguments = get_origin(hint), get_args(hint)
    if origin in (Union, types.UnionType):
        return _choice(arguments)
    if origin is tuple:
        if len(arguments) == 2 and arguments[1] is Ellipsis:
            return Many(arguments[0])
        return Row(arguments)
    if origin is frozenset:
        return Many(arguments[0], is_set=True)
    if isinstance(origin, type) and issubclass(origin, Mapping):
        return Pairs(*arguments)
    if isinstance(origin, type) and issubclass(origin, Sequence):
        return Many(arguments[0])
    if isinstance(hint, type) and (
        hint in PLAIN or hint in EXACT or issubclass(hint, Enum) or dataclasses.is_dataclass(hint)
    ):
        return hint
    raise TypeError(f"records do not hold {hint}: use text, whole numbers, quantities, records, tuples")


def _choice(arguments: Sequence[Any]) -> Choice:
    given = [one for one in arguments if one is not type(None)]
    plain = tuple(one for one in given if one in PLAIN)
    records = tuple(one for one in given if is_record(one))
    others = tuple(one for one in given if one not in plain and one not in records)
    if len(others) > 1 or (others and (plain or records)) or (plain and records):
        raise TypeError(f"records do not hold a choice between {arguments}: it could not be told apart")
    if len({one.__name__ for one in records}) < len(records):
        raise TypeError(f"two classes of one name in {arguments}")
    return Choice(plain, records, others, len(given) < len(arguments))


def is_record(hint: Any) -> bool:
    """Whether a hint is a record class of ours (exact numbers have forms of their own)."""
    return isinstance(hint, type) and dataclasses.is_dataclass(hint) and hint not in EXACT


@cache
def slots(record: type) -> tuple[Slot, ...]:
    """The fields of a record class, in alphabetical order."""
    hints = get_type_hints(record)
    return tuple(
        sorted((_slot(one, hints[one.name]) for one in dataclasses.fields(record)), key=lambda s: s.name)
    )


def _slot(field: dataclasses.Field[Any], hint: Any) -> Slot:
    if field.default is not dataclasses.MISSING:
        value = field.default
        return Slot(field.name, hint, lambda: value)
    if field.default_factory is not dataclasses.MISSING:
        return Slot(field.name, hint, field.default_factory)
    return Slot(field.name, hint, None)
