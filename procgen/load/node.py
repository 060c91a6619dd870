"""A value of a document with its place: how the readers of records take documents apart.

Shape is the schema's business: whatever has not the expected shape was already found by the schema
check, so the readers put a placeholder in its stead without a word and mark the log as broken.
Quantities, dates, sources and names of other things are found here.
"""

from __future__ import annotations

import datetime
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import TypeVar

from procgen.diagnostics import Place, Related
from procgen.load.log import Log
from procgen.load.words import offer, one_line, shown
from procgen.source.document import Data
from procgen.units import UNITS, Dimension, Quantity, QuantityError, of, quantity

W = TypeVar("W", bound=StrEnum)

_RULES = {
    "no-unit": "quantity-without-unit",
    "unknown-unit": "unknown-unit",
    "wrong-dimension": "wrong-dimension",
    "not-a-number": "not-a-quantity",
}


_GROUPS = {
    "aircraft type": "aircraft",
    "base size": "bases",
    "unit type": "unit-types",
    **{
        f"{name} {whose}": f"{name}s"
        for name in ("configuration", "registration")
        for whose in ("of this type", "of this aircraft type", "of an aircraft that has this hold")
    },
}
"""The key under which things of a kind are described, where it is not their plural."""


@dataclass(frozen=True, slots=True)
class Node:
    """One value, where it stands, and the log to complain to."""

    data: Data
    place: Place
    log: Log

    def __getitem__(self, key: str) -> Node:
        """The value behind a key; nothing where there is none."""
        value = self.data.get(key) if isinstance(self.data, dict) else None
        return Node(value, self.place.child(key), self.log)

    def __contains__(self, key: str) -> bool:
        """Whether a value stands behind the key."""
        return isinstance(self.data, dict) and self.data.get(key) is not None

    @property
    def given(self) -> bool:
        """Whether there is anything here."""
        return self.data is not None

    @property
    def key(self) -> Place:
        """The place of the key this value stands behind."""
        return self.place.key()

    def items(self) -> list[tuple[str, Node]]:
        """The keys and values of a mapping, in the order they were written."""
        if not isinstance(self.data, dict):
            self._misshapen()
            return []
        return [(key, self[key]) for key in self.data]

    def elements(self) -> list[Node]:
        """The elements of a list."""
        if not isinstance(self.data, list):
            self._misshapen()
            return []
        return [Node(item, self.place.child(index), self.log) for index, item in enumerate(self.data)]

    def text(self, default: str | None = None) -> str:
        """A text; `default` where nothing stands and nothing need stand."""
        if isinstance(self.data, str):
            return one_line(self.data)
        if self.data is None and default is not None:
            return default
        self.log.broken = True
        return default or ""

    def flag(self, default: bool = False) -> bool:
        """`true` or `false`."""
        if isinstance(self.data, bool):
            return self.data
        self._misshapen()
        return default

    def whole(self) -> int:
        """A whole number."""
        if isinstance(self.data, int) and not isinstance(self.data, bool):
            return self.data
        self.log.broken = True
        return 1

    def word(self, words: type[W], default: W | None = None) -> W:
        """One of a closed list of words; `default` where nothing stands and nothing need stand."""
        for word in words:
            if self.data == word.value:
                return word
        if self.data is not None or default is None:
            self.log.broken = True
        return default if default is not None else next(iter(words))

    def reading(self, dimension: Dimension, least: Fraction | None = None) -> Quantity | None:
        """A quantity of a dimension, or None where there is none; with `least`, it must be above that."""
        if isinstance(self.data, (dict, list)) or self.data is None:
            self.log.broken = True
            return None
        if isinstance(self.data, bool):
            self._no_quantity(dimension)
            return None
        try:
            read = quantity(str(self.data), dimension)
        except QuantityError as error:
            self.log.wrong(_RULES[error.kind], str(error), self.place, error.suggestion)
            return None
        if least is not None and read.si <= least:
            self.log.wrong(
                "quantity-not-positive",
                f"“{read}” cannot be: the {dimension} here is more than 0",
                self.place,
                f"write {'an' if str(dimension)[0] in 'aeiou' else 'a'} {dimension} above 0",
            )
            return None
        return read

    def quantity(self, dimension: Dimension, least: Fraction | None = None) -> Quantity:
        """The same, with a placeholder where there is none."""
        return self.reading(dimension, least) or _placeholder(dimension)

    def size(self, dimension: Dimension) -> Quantity:
        """A quantity above nothing."""
        return self.quantity(dimension, Fraction(0))

    def date(self) -> str:
        """A date of the calendar, as ISO 8601 text."""
        if not isinstance(self.data, str):
            self.log.broken = True
            return "1970-01-01"
        try:
            return datetime.datetime.strptime(self.data, "%Y-%m-%d").date().isoformat()
        except ValueError:
            self.log.wrong(
                "bad-date",
                f"{shown(self.data)} is not a day of the calendar",
                self.place,
                "write year, month and day, as in 2026-09-01",
            )
            return "1970-01-01"

    def refer(self, kind: str, known: Collection[str] | None, *related: Related) -> str:
        """The name of a thing of a kind; `known` names all there are, or is None where nobody can know."""
        if not isinstance(self.data, str):
            self.log.broken = True
            return ""
        name = one_line(self.data)
        if known is not None and name not in known and not self.log.misshapen(self.place):
            unknown(self, name, self.place, kind, known, *related)
        return name

    def refer_key(self, name: str, kind: str, known: Collection[str] | None, *related: Related) -> str:
        """The same for the key that this value stands behind."""
        if known is not None and name not in known:
            unknown(self, name, self.key, kind, known, *related)
        return name

    def references(self, kind: str, known: Collection[str] | None) -> tuple[str, ...]:
        """A list of names of things of a kind."""
        return tuple(element.refer(kind, known) for element in self.elements())

    def words(self, words: type[W]) -> tuple[W, ...]:
        """A list of words of a closed list."""
        return tuple(element.word(words) for element in self.elements())

    def _misshapen(self) -> None:
        if self.data is not None:
            self.log.broken = True

    def _no_quantity(self, dimension: Dimension) -> None:
        examples = ", ".join(unit.symbol for unit in UNITS.values() if unit.dimension is dimension)
        self.log.wrong(
            "not-a-quantity",
            f"{shown(self.data)} is not a quantity",
            self.place,
            f"write a number, a space and a unit of {dimension} ({examples})",
        )


def unknown(
    node: Node, name: str, place: Place, kind: str, known: Collection[str], *related: Related
) -> None:
    """Complain of a name that nothing carries."""
    names: Sequence[str] = list(known)
    way_out = offer(name, names) if names else f"describe it under “{_GROUPS.get(kind, f'{kind}s')}” first"
    node.log.wrong("unknown-name", f"there is no {kind} “{name}”", place, way_out, *related)


def _placeholder(dimension: Dimension) -> Quantity:
    return of(1, next(unit.symbol for unit in UNITS.values() if unit.dimension is dimension))
