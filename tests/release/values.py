"""Values of any type that records hold, drawn by the type alone."""

from __future__ import annotations

from enum import Enum
from fractions import Fraction
from functools import cache
from typing import Any

from hypothesis import strategies as st

from procgen.release.forms import Choice, Many, Pairs, Row, form, is_record, slots
from procgen.results.record import Record
from procgen.units import UNITS, Quantity, Unit

_TEXT = st.one_of(
    st.text(st.characters(codec="utf-8"), max_size=6),
    st.sampled_from(["<svg>\n<g/>\n<g/>\n</svg>", "<svg>\n<g/>\n</svg>", "<\n", "1 588 kg", ""]),
)
_UNIT = st.sampled_from(sorted(UNITS.values(), key=lambda unit: unit.symbol))
_QUANTITY = st.builds(Quantity, st.fractions(max_denominator=10**6), _UNIT, _TEXT.map(str))
_PLAIN: dict[Any, st.SearchStrategy[Any]] = {
    str: _TEXT,
    bool: st.booleans(),
    int: st.integers(),
    Fraction: st.fractions(),
    Unit: _UNIT,
    Quantity: _QUANTITY,
}


@cache
def values(hint: Any) -> st.SearchStrategy[Any]:
    """Values of a type."""
    shape: Any = form(hint)
    if isinstance(shape, Many):
        items = st.lists(values(shape.item), max_size=2)
        return items.map(frozenset) if shape.is_set else items.map(tuple)
    if isinstance(shape, Row):
        return st.tuples(*(values(one) for one in shape.items))
    if isinstance(shape, Pairs):
        return st.dictionaries(values(shape.key), values(shape.value), max_size=2)
    if isinstance(shape, Choice):
        ways = [values(one) for one in (*shape.plain, *shape.records, *shape.others)]
        return st.one_of(*([st.none()] if shape.none else []), *ways)
    if issubclass(shape, Enum):
        return st.sampled_from(list(shape))
    if is_record(shape):
        return st.builds(shape, **{slot.name: values(slot.hint) for slot in slots(shape)})
    return _PLAIN[shape]


@cache
def record_classes() -> tuple[type, ...]:
    """Every class that a record is made of, by name."""
    found: set[type] = set()
    _collect(Record, found)
    return tuple(sorted(found, key=lambda one: (one.__module__, one.__name__)))


def _collect(hint: Any, found: set[type]) -> None:
    shape = form(hint)
    if isinstance(shape, Many):
        _collect(shape.item, found)
    elif isinstance(shape, Row):
        for one in shape.items:
            _collect(one, found)
    elif isinstance(shape, Pairs):
        _collect(shape.key, found)
        _collect(shape.value, found)
    elif isinstance(shape, Choice):
        for one in (*shape.records, *shape.others):
            _collect(one, found)
    elif is_record(shape) and shape not in found:
        found.add(shape)
        for slot in slots(shape):
            _collect(slot.hint, found)
