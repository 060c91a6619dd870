"""Names of things as a page shows them, lists of them, and numbers."""

from __future__ import annotations

from collections.abc import Sequence

from procgen.model.hold import Hold
from procgen.model.step import PlannedUnit
from procgen.results.limits import LimitTable
from procgen.units import Quantity
from procgen.write import phrases


def item(hold: Hold, name: str) -> str:
    """An item by its painted name, marked and with its article; by its own name if unknown.

    A name that ends in a number or a position is a proper name and takes no article.
    """
    title = _title(hold, name)
    proper = any(letter.isdigit() for letter in title.rsplit(" ", 1)[-1])
    return (phrases.ITEM_NUMBERED if proper else phrases.ITEM).format(name=title)


def _title(hold: Hold, name: str) -> str:
    for group in (hold.restraints, hold.controls, hold.panels, hold.doors):
        if name in group:
            return group[name].title
    return name


def pulling_gear(hold: Hold, name: str) -> str:
    """Pulling gear by its name, with its article; by its key if unknown."""
    known = hold.hand_moves.gear.get(name) if hold.hand_moves is not None else None
    return phrases.ITEM.format(name=known.title if known is not None else name)


def items(hold: Hold, names: Sequence[str]) -> str:
    """Several items: the a, the b and the c."""
    return listing([item(hold, name) for name in names])


def bay(name: str) -> str:
    """A bay by its name."""
    return phrases.BAY.format(bay=name)


def bays(names: Sequence[str]) -> str:
    """Several bays."""
    return listing([bay(name) for name in names])


def listing(words: Sequence[str]) -> str:
    """A list in words: a, b and c."""
    *others, last = words or [""]
    return (phrases.LIST_COMMA.join(others) + phrases.LIST_AND if others else "") + last


def are(names: Sequence[str]) -> str:
    """The verb that goes with one thing or with several."""
    return phrases.IS_ONE if len(names) == 1 else phrases.ARE_MANY


def sentence(text: str) -> str:
    """A text with its first letter raised."""
    start = 2 if text.startswith("**") else 0
    return text[:start] + text[start : start + 1].upper() + text[start + 1 :]


def sentences(*parts: str) -> str:
    """Sentences behind one another, the empty ones left out."""
    return " ".join(part for part in parts if part)


def has_default_name(unit: PlannedUnit) -> bool:
    """Whether a unit is only called after its bay, as those are that no author has named."""
    return unit.name == f"u{unit.bay}"


def is_loose(planned: PlannedUnit | None, hold: Hold) -> bool:
    """Whether a unit is a loose load: what goes to a bulk section, piece by piece."""
    return planned is not None and planned.bay in hold.bays and hold.bays[planned.bay].bulk


def presented(planned: PlannedUnit | None, name: str, hold: Hold) -> str:
    """A unit that is brought to the door: by its own name, or by its bay where it has none of its own."""
    loose = is_loose(planned, hold)
    if planned is None or not has_default_name(planned):
        return (phrases.LOAD_NAMED if loose else phrases.UNIT_NAMED).format(name=name)
    return (phrases.LOAD_FOR if loose else phrases.UNIT_FOR).format(bay=planned.bay)


def limit(limits: LimitTable, planned: PlannedUnit, mass_unit: str) -> str:
    """The most that the position may carry of this type, rounded down; empty if it may carry none."""
    for cell in limits.cells:
        if (cell.position, cell.unit_type) == (planned.bay, planned.unit_type) and cell.limit is not None:
            return _in(cell.limit, mass_unit).down()
    return ""


def _in(quantity: Quantity, symbol: str) -> Quantity:
    return quantity.to(symbol) if symbol else quantity


def speed(quantity: Quantity) -> str:
    """A speed limit as it was written, and rounded down in km/h where it was not written so."""
    if quantity.unit.symbol == "km/h":
        return str(quantity)
    return phrases.SPEED.format(written=quantity, other=quantity.to("km/h").down())
