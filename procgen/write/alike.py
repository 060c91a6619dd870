"""Texts that differ only in names: what is the same in all of them, and the names by column.

A name is what stands between `**` and `**`, with the article before it: "the **end stop**", "**lock 41**".
Everything else must be the same, letter by letter.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from procgen.write import phrases, words

_NAME = re.compile(r"([Tt]he )?\*\*(.+?)\*\*")
_TAKEN = ("[[", "]]")
"""What marks a slot; a text that holds it is never folded."""


@dataclass(frozen=True, slots=True)
class Part:
    """A piece of a text: words as they are, or a name; `capital` where the name starts a sentence."""

    text: str
    is_name: bool = False
    capital: bool = False


@dataclass(frozen=True, slots=True)
class Column:
    """The names that stand in one slot, turn by turn; `touched` where it is what stops the unit."""

    names: tuple[str, ...]
    touched: bool = False


class Alike:
    """Texts of one page, each said once for all turns; collects the columns of all of them."""

    def __init__(self, titles: Sequence[str], columns: Sequence[Column] = ()) -> None:
        self.titles = frozenset(titles)
        self.columns: list[Column] = list(columns)

    def parts(self, text: str) -> list[Part]:
        """A text cut into words and names."""
        found: list[Part] = []
        at = 0
        for match in _NAME.finditer(text):
            found.append(Part(text[at : match.start()]))
            found.append(self._name(match[1] or "", match[2]))
            at = match.end()
        found.append(Part(text[at:]))
        return found

    def _name(self, article: str, name: str) -> Part:
        lowered = name[:1].lower() + name[1:]
        raised = not article and name not in self.titles and lowered in self.titles
        shown = f"{article.lower()}**{lowered if raised else name}**"
        return Part(shown, is_name=True, capital=raised or article == "The ")

    def merged(self, texts: Sequence[str]) -> str | None:
        """The text for all turns, with `[[n]]` for the name in column n; None where more than names differ.

        `[[^n]]` stands for the same name at the start of a sentence.
        """
        if any(mark in text for text in texts for mark in _TAKEN):
            return None
        rows = [self.parts(text) for text in texts]
        if len({len(row) for row in rows}) > 1:
            return None
        result = ""
        for across in zip(*rows, strict=True):
            first = across[0]
            if all(part == first for part in across):
                result += words.sentence(first.text) if first.capital else first.text
            elif all(part.is_name and part.capital == first.capital for part in across):
                number = self._column(tuple(part.text for part in across), result.endswith(_TOUCHES))
                result += f"[[{'^' if first.capital else ''}{number}]]"
            else:
                return None
        return result

    def _column(self, names: tuple[str, ...], touched: bool) -> int:
        for number, column in enumerate(self.columns):
            if column.names == names:
                return number
        self.columns.append(Column(names, touched))
        return len(self.columns) - 1


_TOUCHES = phrases.END_ITEM.partition("{")[0]
