"""Quantities: what is read, what is refused, exact conversion, rounding one way only."""

from __future__ import annotations

from fractions import Fraction

import pytest

from procgen.units import STANDARD_GRAVITY, UNITS, Dimension, QuantityError, of, quantity


@pytest.mark.parametrize(
    ("text", "dimension", "value", "shown"),
    [
        ("1 588 kg", Dimension.MASS, Fraction(1588), "1 588 kg"),
        ("1588 kg", Dimension.MASS, Fraction(1588), "1588 kg"),
        ("1588kg", Dimension.MASS, Fraction(1588), "1588 kg"),
        ("  3500   lb ", Dimension.MASS, Fraction(3500), "3500 lb"),
        ("1\u202f588.5\u00a0kg", Dimension.MASS, Fraction(3177, 2), "1 588.5 kg"),
        ("12 345 678 kg", Dimension.MASS, Fraction(12345678), "12 345 678 kg"),
        ("2.05 m", Dimension.LENGTH, Fraction(41, 20), "2.05 m"),
        ("-0.85 m", Dimension.LENGTH, Fraction(-17, 20), "-0.85 m"),
        ("+81 in", Dimension.LENGTH, Fraction(81), "+81 in"),
        ("40 kt", Dimension.SPEED, Fraction(40), "40 kt"),
        ("1.5 g", Dimension.ACCELERATION, Fraction(3, 2), "1.5 g"),
        ("3 %", Dimension.RATIO, Fraction(3), "3 %"),
    ],
)
def test_reads(text: str, dimension: Dimension, value: Fraction, shown: str) -> None:
    read = quantity(text, dimension)
    assert read.value == value
    assert str(read) == shown


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("1588", "no-unit"),
        ("1 588", "no-unit"),
        ("1588 kgs", "unknown-unit"),
        ("1588 KG", "unknown-unit"),
        ("1588 kg net", "unknown-unit"),
        ("1588 m", "wrong-dimension"),
        ("1588 lbf", "wrong-dimension"),
        ("", "not-a-number"),
        ("kg", "not-a-number"),
        ("about 5 kg", "not-a-number"),
        (".5 kg", "not-a-number"),
        ("5. kg", "not-a-number"),
        ("1,588 kg", "not-a-number"),
        ("1'588 kg", "not-a-number"),
        ("1 58 kg", "not-a-number"),
        ("1588 000 kg", "not-a-number"),
        ("1/2 kg", "not-a-number"),
        ("1e3 kg", "not-a-number"),
        ("\u0661\u0662 kg", "not-a-number"),
        ("9" * 50 + " kg", "not-a-number"),
    ],
)
def test_refuses_with_a_way_out(text: str, kind: str) -> None:
    with pytest.raises(QuantityError) as caught:
        quantity(text, Dimension.MASS)
    assert caught.value.kind == kind
    assert str(caught.value)
    assert caught.value.suggestion


@pytest.mark.parametrize(
    ("text", "dimension", "meant"),
    [
        ("3500 lbs", Dimension.MASS, "did you mean lb?"),
        ("1588 KG", Dimension.MASS, "did you mean kg?"),
        ("40 knots", Dimension.SPEED, "did you mean kt?"),
        ("9 KN", Dimension.FORCE, "did you mean kN?"),
        ("40 knots", Dimension.MASS, "use one of kg, t, lb"),
        ("3 stone", Dimension.MASS, "use one of kg, t, lb"),
    ],
)
def test_the_unit_that_was_meant(text: str, dimension: Dimension, meant: str) -> None:
    with pytest.raises(QuantityError) as caught:
        quantity(text, dimension)
    assert caught.value.suggestion.startswith(meant)


@pytest.mark.parametrize(
    ("number", "unit", "si"),
    [
        # International definitions, exact (memory, for NIST SP 811, appendix B.8).
        ("1", "lb", "0.45359237"),
        ("1", "in", "0.0254"),
        ("1", "ft", "0.3048"),
        ("1", "lbf", "4.4482216152605"),
        ("1", "g", "9.80665"),
        ("1", "t", "1000"),
        ("1", "daN", "10"),
        ("1", "min", "60"),
        ("1", "h", "3600"),
        ("50", "%", "0.5"),
        # Worked by hand from the definitions above.
        ("3500", "lb", "1587.573295"),
        ("81", "in", "2.0574"),
        ("36", "km/h", "10"),
        ("18", "kt", "9.26"),
    ],
)
def test_exact_factors(number: str, unit: str, si: str) -> None:
    assert of(number, unit).si == Fraction(si)


def test_composed_factors() -> None:
    """Worked by hand: 1 lb/in = 0.45359237 / 0.0254 kg/m, and so on; 1 kt = 1852 m in an hour."""
    assert of(1, "lb/in").si == Fraction("0.45359237") / Fraction("0.0254")
    assert of(12, "lb/ft").si == of(1, "lb/in").si
    assert of(1, "lb/ft2").si == Fraction("0.45359237") / Fraction("0.09290304")
    assert of(1, "kt").si == Fraction(1852, 3600)
    assert of(1, "lbf").si == of(1, "lb").si * STANDARD_GRAVITY


def test_1588_kg_is_above_3500_lb() -> None:
    """The maximum of an LD3 in both units: 3500 lb is 1587.57 kg (definition of the pound)."""
    assert of(1588, "kg") > of(3500, "lb")
    assert of(3500, "lb").to("kg").down(2) == "1 587.57 kg"
    assert of(1588, "kg").to("lb").down() == "3 500 lb"
    assert of(1588, "kg").to("lb").up() == "3 501 lb"


def test_equality_is_by_what_is_measured() -> None:
    assert of(1, "t") == of(1000, "kg")
    assert hash(of(1, "t")) == hash(of(1000, "kg"))
    assert of(1, "kg") != of(1, "m")
    assert quantity("1 588 kg", Dimension.MASS) == quantity("1588 kg", Dimension.MASS)
    assert of(1, "kg") != 1


def test_other_dimensions_are_not_compared_or_converted() -> None:
    with pytest.raises(ValueError, match="cannot compare"):
        assert of(1, "kg") < of(1, "m")
    with pytest.raises(ValueError, match="cannot be turned"):
        of(1, "kg").to("m")


@pytest.mark.parametrize(
    ("value", "decimals", "down", "up"),
    [
        ("1587.573295", 0, "1 587 kg", "1 588 kg"),
        ("1587.573295", 1, "1 587.5 kg", "1 587.6 kg"),
        ("1588", 0, "1 588 kg", "1 588 kg"),
        ("0.05", 1, "0.0 kg", "0.1 kg"),
        ("999.999", 0, "999 kg", "1 000 kg"),
        ("-1.5", 0, "-2 kg", "-1 kg"),
        ("1234567.1", 0, "1 234 567 kg", "1 234 568 kg"),
    ],
)
def test_rounding(value: str, decimals: int, down: str, up: str) -> None:
    assert of(value, "kg").down(decimals) == down
    assert of(value, "kg").up(decimals) == up


def test_computed_quantities_show_exactly() -> None:
    assert str(of(Fraction(1, 8), "m")) == "0.125 m"
    assert str(of(Fraction(1, 3), "m")) == "1/3 m"
    assert str(of(12345, "kg")) == "12 345 kg"


def test_every_dimension_has_a_unit() -> None:
    assert {unit.dimension for unit in UNITS.values()} == set(Dimension)


@pytest.mark.parametrize(("text", "shown"), [("2438mm", "2438 mm"), ("1 588kg", "1 588 kg"), ("3%", "3 %")])
def test_a_number_is_shown_apart_from_its_unit(text: str, shown: str) -> None:
    """Pages and reckonings show what was written; run together a loader misreads it."""
    dimension = {"m": Dimension.LENGTH, "g": Dimension.MASS, "%": Dimension.RATIO}[text[-1]]
    assert str(quantity(text, dimension)) == shown
