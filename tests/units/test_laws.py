"""Laws of quantities."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from procgen.units import UNITS, Dimension, Quantity, QuantityError, of, quantity

SYMBOLS = st.sampled_from(sorted(UNITS))
DECIMALS = st.decimals(-(10**9), 10**9, places=4, allow_nan=False)
FRACTIONS = st.fractions(-(10**6), 10**6, max_denominator=10**6)


def _number(text: str) -> Fraction:
    return Fraction(text.rsplit(" ", 1)[0].replace(" ", ""))


@given(DECIMALS, SYMBOLS)
def test_what_is_shown_reads_back_the_same(value: object, symbol: str) -> None:
    shown = of(Fraction(str(value)), symbol)
    read = quantity(str(shown), shown.dimension)
    assert read == shown
    assert read.unit is shown.unit
    assert read.value == shown.value


@given(DECIMALS, SYMBOLS)
def test_what_was_written_is_kept(value: object, symbol: str) -> None:
    text = f"{value:f} {symbol}"
    assert str(quantity(text, UNITS[symbol].dimension)) == text


@given(FRACTIONS, SYMBOLS, st.integers(0, 4))
def test_down_is_never_above_and_up_never_below(value: Fraction, symbol: str, decimals: int) -> None:
    exact = of(value, symbol)
    down, up, step = _number(exact.down(decimals)), _number(exact.up(decimals)), Fraction(1, 10**decimals)
    assert value - step < down <= value <= up < value + step


@given(FRACTIONS, SYMBOLS, st.data())
def test_converting_there_and_back_changes_nothing(value: Fraction, symbol: str, data: st.DataObject) -> None:
    start = of(value, symbol)
    same = sorted(unit.symbol for unit in UNITS.values() if unit.dimension is start.dimension)
    other = start.to(data.draw(st.sampled_from(same)))
    assert other == start
    assert hash(other) == hash(start)
    assert other.to(symbol).value == value


@given(FRACTIONS, FRACTIONS, st.sampled_from(["kg", "lb", "t"]), st.sampled_from(["kg", "lb", "t"]))
def test_order_is_that_of_what_is_measured(one: Fraction, two: Fraction, first: str, second: str) -> None:
    left, right = of(one, first), of(two, second)
    assert (left < right) == (left.si < right.si)
    assert (left >= right) == (left.si >= right.si)


@given(st.text(), st.sampled_from(Dimension))
def test_any_text_is_a_quantity_or_refused(text: str, dimension: Dimension) -> None:
    read = _quantity_or_why_not(text, dimension)
    assert read.suggestion if isinstance(read, QuantityError) else read.dimension is dimension


def _quantity_or_why_not(text: str, dimension: Dimension) -> Quantity | QuantityError:
    try:
        return quantity(text, dimension)
    except QuantityError as refused:
        return refused
