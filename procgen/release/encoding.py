"""Records to plain JSON data and back, exactly, by the types of their fields.

A record is an object of its fields; a field that holds its default is left out, so that a field added
later with a default changes no record. Where a field may hold one of several classes, `is` names the class.
Mappings are lists of pairs, because their order counts; sets are sorted. A fraction is text, a quantity its
exact value, its unit and the text it was written in. Markup of several lines is kept as runs
of lines in a table that the whole document shares: diagrams of neighbouring steps differ in a few lines.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from fractions import Fraction
from functools import cache
from typing import Any

from procgen.release.codec import CLASS, LINES, Json, LineTable, canonical
from procgen.release.forms import Choice, Many, Pairs, Row, form, is_record, slots
from procgen.units import UNITS, Quantity, Unit


def encode(value: Any, hint: Any, table: LineTable) -> Json:
    """The JSON data of a value whose type is `hint`. Raises `TypeError` where it is of another type."""
    shape = form(hint)
    if isinstance(shape, Many):
        items = [encode(one, shape.item, table) for one in value]
        return sorted(items, key=canonical) if shape.is_set else items
    if isinstance(shape, Row):
        return [encode(one, each, table) for one, each in zip(value, shape.items, strict=True)]
    if isinstance(shape, Pairs):
        return [[encode(k, shape.key, table), encode(v, shape.value, table)] for k, v in value.items()]
    if isinstance(shape, Choice):
        return _encode_choice(value, shape, table)
    if not isinstance(value, shape) or (shape is int and isinstance(value, bool)):
        raise TypeError(f"{value!r} is not of type {shape.__name__}")
    if is_record(shape):
        return _encode_record(value, shape, table)
    return _encode_plain(value, table)


def _encode_plain(value: Any, table: LineTable) -> Json:
    if isinstance(value, Enum):
        plain: Json = value.value
        return plain
    if isinstance(value, Quantity):
        found: dict[str, Json] = {"exact": str(value.value), "unit": _symbol(value.unit)}
        return {**found, "written": value.written} if value.written else found
    if isinstance(value, Unit):
        return _symbol(value)
    if isinstance(value, Fraction):
        return str(value)
    if isinstance(value, str) and value.startswith("<") and "\n" in value:
        return {LINES: table.runs(value)}
    kept: Json = value
    return kept


def _symbol(unit: Unit) -> str:
    if UNITS.get(unit.symbol) != unit:
        raise TypeError(f"{unit} is not a unit of ours")
    return unit.symbol


def _encode_choice(value: Any, shape: Choice, table: LineTable) -> Json:
    if value is None and shape.none:
        return None
    if shape.others:
        return encode(value, shape.others[0], table)
    if shape.plain:
        if type(value) not in shape.plain and not isinstance(value, shape.plain):
            raise TypeError(f"{value!r} is none of {shape.plain}")
        return _encode_plain(value, table)
    if type(value) not in shape.records:
        raise TypeError(f"{value!r} is none of {[one.__name__ for one in shape.records]}")
    found = _encode_record(value, type(value), table)
    return found if len(shape.records) == 1 else {CLASS: type(value).__name__, **found}


def _encode_record(value: Any, record: type, table: LineTable) -> dict[str, Json]:
    found: dict[str, Json] = {}
    for slot in slots(record):
        held = encode(getattr(value, slot.name), slot.hint, table)
        if slot.has_default and held == default_of(record)[slot.name]:
            continue
        found[slot.name] = held
    return found


@cache
def default_of(record: type) -> Mapping[str, Json]:
    """The JSON data of every default of a record class."""
    table = LineTable()
    found = {s.name: encode(s.default(), s.hint, table) for s in slots(record) if s.has_default}
    if table.lines:
        raise TypeError(f"a default of {record.__name__} is markup")
    return found
