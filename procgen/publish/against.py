"""Two texts held against each other: the words marked that the other does not have."""

from __future__ import annotations

import re
from difflib import SequenceMatcher

from markupsafe import Markup, escape

_WORDS = re.compile(r"\s+|[^\s]+")
_LONG = 240
"""The length from which a text is cut down to what differs, where it is cut down at all."""
_MOST = 4
"""How many stretches that differ a text that is cut down shows at most."""
_AROUND = 16
"""How many words and blanks of what is alike stay beside what differs."""


def said(text: str) -> Markup:
    """A text as it says it, painted names in bold."""
    bold = re.sub(r"\*\*(.+?)\*\*", r"<b>\1</b>", str(escape(text)))
    # A name that is cut by a marked word loses its marks: they are not to be read.
    return Markup(bold.replace("**", ""))


def against(was: str, now: str, *, brief: bool = False) -> tuple[Markup, Markup]:
    """Both texts, the words marked that the other does not have.

    `brief`: of long texts only what differs first and what stands next to it, “…” for the rest, and how many
    stretches more there are.
    """
    before, after = _WORDS.findall(was), _WORDS.findall(now)
    cut = brief and len(was) + len(now) > 2 * _LONG
    older, newer = [], []
    steps = SequenceMatcher(None, before, after, autojunk=False).get_opcodes()
    shown = steps[: 2 * _MOST] if cut else steps
    for number, (kind, i, j, k, m) in enumerate(shown):
        if kind == "equal":
            alike = before[i:j]
            if cut:
                alike = _ends(alike, number > 0, number < len(steps) - 1)
            older.append(said("".join(alike)))
            newer.append(said("".join(alike)))
            continue
        gone, come = "".join(before[i:j]), "".join(after[k:m])
        if gone:
            older.append(Markup("<del>{}</del>").format(said(gone)))
        if come:
            newer.append(Markup("<ins>{}</ins>").format(said(come)))
    if left := sum(kind != "equal" for kind, *_ in steps[len(shown) :]):
        more = Markup(" … and {} more place{}").format(left, "" if left == 1 else "s")
        older, newer = [*older, more], [*newer, more]
    return Markup("").join(older), Markup("").join(newer)


def _ends(words: list[str], behind: bool, ahead: bool) -> list[str]:
    """The words next to what differs: at the start where it differs before them, at the end where behind."""
    kept = _AROUND * (behind + ahead)
    if len(words) <= kept + 2:
        return words
    start, end = (words[:_AROUND] if behind else []), (words[-_AROUND:] if ahead else [])
    return [*start, " … ", *end]
