"""Records survive being written and read, exactly; nothing else is taken for one."""

from __future__ import annotations

import json
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.model.hold import Hold
from procgen.release.codec import Json, LineTable, RecordError, canonical
from procgen.release.decoding import decode
from procgen.release.encoding import encode
from procgen.release.forms import form
from procgen.results.page import HoldSite, StationSite
from procgen.results.record import Record
from procgen.units import Dimension, Quantity, of, quantity
from tests.release.values import record_classes, values
from tests.strategies import GeneratedHold, holds

WHOLE = (Record, StationSite, HoldSite, Hold)
"""Too many parts to draw at once; every part is drawn on its own."""


def there_and_back(value: Any, hint: Any) -> tuple[Any, Json]:
    """A value written, sent as text, read again."""
    table = LineTable()
    data = encode(value, hint, table)
    sent = json.loads(canonical([data, list(table.lines)]))
    return decode(sent[0], hint, LineTable(sent[1])), data


@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_any_part_of_a_record_round_trips(data: st.DataObject) -> None:
    kind = data.draw(st.sampled_from([one for one in record_classes() if one not in WHOLE]))
    try:
        value = data.draw(values(kind))
    except ValueError:
        return  # the class refuses what its types allow
    back, written = there_and_back(value, kind)
    assert back == value
    # Equality passes over places and over how a quantity was written; the second writing does not.
    assert there_and_back(back, kind)[1] == written


@settings(max_examples=15, deadline=None)
@given(drawn=holds())
def test_any_hold_round_trips(drawn: GeneratedHold) -> None:
    back, written = there_and_back(drawn.hold, Hold)
    assert back == drawn.hold
    assert list(back.restraints) == list(drawn.hold.restraints)
    assert back.place == drawn.hold.place
    assert there_and_back(back, Hold)[1] == written


def test_a_quantity_keeps_its_unit_and_the_text_it_was_written_in() -> None:
    for given_, expected in [
        (quantity("1 588 kg", Dimension.MASS), {"exact": "1588", "unit": "kg", "written": "1 588 kg"}),
        (of(Fraction(1, 3), "lb/in"), {"exact": "1/3", "unit": "lb/in"}),
        (of(Fraction("2.5"), "m"), {"exact": "5/2", "unit": "m"}),
    ]:
        back, data = there_and_back(given_, Quantity)
        assert data == expected
        assert (back.value, back.unit, back.written) == (given_.value, given_.unit, given_.written)


def test_the_order_of_a_mapping_is_kept_and_that_of_a_set_is_not() -> None:
    assert list(there_and_back({"b": 1, "a": 2}, dict[str, int])[0]) == ["b", "a"]
    one, other = frozenset("cab"), frozenset("bca")
    assert (
        there_and_back(one, frozenset[str])[1] == there_and_back(other, frozenset[str])[1] == ["a", "b", "c"]
    )


def test_lines_that_drawings_share_are_kept_once() -> None:
    table = LineTable()
    first, second = "<svg>\n<g/>\n<up/>\n</svg>", "<svg>\n<g/>\n<down/>\n</svg>"
    data = encode((first, second), tuple[str, ...], table)
    assert table.lines == ["<svg>", "<g/>", "<up/>", "</svg>", "<down/>"]
    assert data == [{"lines": [[0, 4]]}, {"lines": [[0, 2], [4, 1], [3, 1]]}]
    assert decode(data, tuple[str, ...], table) == (first, second)


@dataclass(frozen=True)
class _Sample:
    """For the faults below."""

    name: str
    share: Fraction
    mass: Quantity | None = None
    tags: tuple[str, ...] = ()


@pytest.mark.parametrize(
    ("data", "says"),
    [
        ([], "[] is no _Sample"),
        ({"name": "a"}, "_Sample lacks “share”"),
        ({"name": "a", "share": "1", "more": 1}, "_Sample has no “more”"),
        ({"name": 1, "share": "1"}, "name: 1 is not of type str"),
        ({"name": "a", "share": 1}, "share: 1 is no exact number"),
        ({"name": "a", "share": "2/4"}, 'share: "2/4" is no exact number'),
        ({"name": "a", "share": "0.5"}, 'share: "0.5" is no exact number'),
        ({"name": "a", "share": "1/0"}, 'share: "1/0" is no exact number'),
        ({"name": "a", "share": "1", "mass": {"exact": "1", "unit": "stone"}}, 'mass: "stone" is no unit'),
        ({"name": "a", "share": "1", "mass": {"exact": "1"}}, 'mass: {"exact":"1"} is no quantity'),
        ({"name": "a", "share": "1", "tags": ["b", 2]}, "tags/1: 2 is not of type str"),
        ({"name": {"lines": [[0, 9]]}, "share": "1"}, "name: there are no lines 0 to 8"),
    ],
)
def test_what_is_no_record_is_refused_with_the_place_of_the_fault(data: Json, says: str) -> None:
    with pytest.raises(RecordError) as caught:
        decode(data, _Sample, LineTable(["only one"]))
    assert str(caught.value) == says


def test_types_that_cannot_be_told_apart_are_refused() -> None:
    for hint in (float, object, int | tuple[int, ...], str | _Sample):
        with pytest.raises(TypeError):
            form(hint)


def test_a_value_of_another_type_is_never_written() -> None:
    for value, hint in [(1, str), (True, int), (1.5, int), ("x", _Sample), (1, str | None)]:
        with pytest.raises(TypeError):
            encode(value, hint, LineTable())
