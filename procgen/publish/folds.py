"""The parts of a page as a list or a sheet of paper shows them: blocks, and cycles folded into a table."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from procgen.publish.words import capital, marked, plain
from procgen.results.page import PageBlock, PageFold, ProcedurePage

_SLOT = re.compile(r"\[\[(\^?)(\d+)\]\]")


@dataclass(frozen=True, slots=True)
class Part:
    """One block as it is, or a fold over several."""

    blocks: tuple[PageBlock, ...]
    fold: PageFold | None = None


def parts(page: ProcedurePage) -> tuple[Part, ...]:
    """Every block of the page once, in order: alone or under its fold."""
    folds = {one.turns[0].letter: one for one in page.folds}
    covered = {turn.letter: one for one in page.folds for turn in one.turns}
    found = []
    for block in page.blocks:
        one = folds.get(block.letter)
        if one is not None:
            found.append(Part(tuple(b for b in page.blocks if covered.get(b.letter) is one), one))
        elif block.letter not in covered:
            found.append(Part((block,)))
    return tuple(found)


def bare(name: str) -> str:
    """A name as a table shows it: without its article and its marks."""
    return plain(name.removeprefix("the "))


def slotted(text: str, labels: Sequence[str]) -> Markup:
    """Words of a fold: each slot shown as the head of its column, framed; the rest as `marked` shows it.

    Without labels there are no slots, whatever stands in the text.
    """
    if not labels:
        return marked(text)
    result = Markup()
    at = 0
    for found in _SLOT.finditer(text):
        label = labels[int(found[2])]
        shown = capital(label) if found[1] else label
        result += marked(text[at : found.start()]) + Markup('<b class="slot">{}</b>').format(shown)
        at = found.end()
    return result + marked(text[at:])
