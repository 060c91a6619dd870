"""Ways out, in the writer's words."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Sequence

from procgen.source.document import Data

_MANY = 12


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word that looks most like `word`, if one looks like it at all."""
    by_fold = {name.casefold(): name for name in sorted(known)}
    found = difflib.get_close_matches(word.casefold(), by_fold, n=1, cutoff=0.6)
    if not found:
        found = [fold for fold in by_fold if sorted(fold) == sorted(word.casefold())]
    return by_fold[found[0]] if found else None


def offer(word: str, known: Sequence[str]) -> str:
    """The nearest known word as a question, else the known words."""
    near = nearest(word, known)
    if near is not None:
        return f"did you mean “{near}”?"
    return f"use one of: {listed(known)}" if known else "name it first"


_SAME = {
    "up": "raised",
    "down": "lowered",
    "fitted": "raised",
    "removed": "lowered",
    "fwd": "forward",
    "fore": "forward",
    "backward": "aft",
    "back": "aft",
    "joystick": "stick",
}
"""What the trade says for a word of ours."""


def offer_word(word: str, known: Sequence[str]) -> str:
    """The known word that means the same, else the nearest one."""
    same = _SAME.get(word.casefold())
    return f"did you mean “{same}”?" if same in known else offer(word, known)


def listed(words: Sequence[str]) -> str:
    """The words in a row; of a long row, the first dozen."""
    shown = ", ".join(words[:_MANY])
    return f"{shown} … ({len(words)} in all)" if len(words) > _MANY else shown


def shown(data: Data) -> str:
    """A value as a writer knows it, cut short."""
    if data is None:
        return "nothing"
    if isinstance(data, bool):
        return "true" if data else "false"
    if isinstance(data, list):
        return "a list"
    if isinstance(data, dict):
        return "a mapping"
    text = str(data)
    return f"“{text if len(text) <= 60 else text[:57] + '…'}”"


def one_line(data: Data) -> str:
    """The text of a plain value, for setting it in quotes."""
    return " ".join(str(data).split())
