"""How a reckoned number is written in a reckoning: cut, with a sign that more digits follow."""

from __future__ import annotations

from procgen.units import Quantity


def shown(quantity: Quantity) -> str:
    """A quantity cut to a tenth; `…` says that more digits follow."""
    tenths = quantity.value * 10
    if tenths.denominator == 1:
        return quantity.down(0 if quantity.value.denominator == 1 else 1)
    number, _, unit = quantity.down(1).rpartition(" ")
    return f"{number}… {unit}"


def mass_symbol(written: Quantity) -> str:
    """The unit of a mass that derives from a limit per length or area: pounds from pounds, else kilograms."""
    return "lb" if written.unit.symbol.startswith("lb/") else "kg"
