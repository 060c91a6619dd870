"""Words and numbers as the pages show them."""

from __future__ import annotations

import re

from markupsafe import Markup, escape

from procgen.units import Quantity

_BOLD = re.compile(r"\*\*(.+?)\*\*")

PREVAIL = (
    "The operator's approved weight and balance and ground operations manuals, local rules and qualified"
    " supervision come before this page."
)
"""Stands on every page."""

DEMONSTRATION = "Demonstration: not for operational use"

STOP = "If anything is wrong: let go, stand clear, call “stop”."
"""Stands on every step."""


def marked(text: str) -> Markup:
    """Text with `**...**` around painted names as markup; everything else escaped."""
    return Markup(_BOLD.sub(r"<strong>\1</strong>", str(escape(text))))


def plain(text: str) -> str:
    """The same text without its marks."""
    return _BOLD.sub(r"\1", text)


def heading(text: str) -> Markup:
    """Text for a Markdown heading: nothing in it is taken for Markdown or for HTML."""
    return escape(re.sub(r"([\\`*_{}\[\]()#+.!-])", r"\\\1", text))


def capital(text: str) -> str:
    """The text with a capital letter at its start; a name with figures in it stays as it is painted."""
    first = text.partition(" ")[0]
    return text if any(map(str.isdigit, first)) else text[:1].upper() + text[1:]


def most(quantity: Quantity, unit: str, decimals: int = 0) -> str:
    """A limit in a unit, rounded down, with a space that does not break."""
    return quantity.to(unit).down(decimals).replace(" ", "\N{NO-BREAK SPACE}")


def both(quantity: Quantity, unit: str, decimals: int = 0) -> str:
    """A limit in the station's unit, and in the other one behind it; each rounded down on its own."""
    other = "lb" if unit == "kg" else "kg"
    return f"{most(quantity, unit, decimals)} ({most(quantity, other, decimals)})"


def length(quantity: Quantity) -> str:
    """The most a length may be, in mm and behind it in inches; each cut down on its own."""
    in_mm, inches = quantity.to("mm").down(), quantity.to("in").down(1)
    return " ".join(part.replace(" ", "\N{NO-BREAK SPACE}") for part in (in_mm, f"({inches})"))


def limit_text(quantity: Quantity) -> str:
    """A limit as it is written, or where it is computed cut to a whole number of its unit."""
    return quantity.written or quantity.down()


def closing(demonstration: bool) -> str:
    """What stands at the foot of every page."""
    return f"{DEMONSTRATION}. {PREVAIL}" if demonstration else PREVAIL
