"""One step of two pages compared: what it does, what it says, the warnings that apply to it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields, replace
from typing import Any

from procgen.diff.shape import place_of
from procgen.diff.stepping import Placed
from procgen.diff.texts import compare_texts, unmarked
from procgen.diff.walk import At, fields_of, make
from procgen.model import step as steps
from procgen.results.difference import Difference, DifferenceClass, DifferenceKind, NumberChange, Side
from procgen.results.page import PageStep

_TEXTS = tuple(one.name for one in fields(PageStep) if one.type == "str")
"""What a step says, in the order in which it is said."""
_FIELD_WORDS = {
    "text": "the words",
    "why": "the reason given",
    "done_when": "“done when”",
    "if_not": "“if not”",
    "who": "who does it",
    "then": "what follows",
}


def compare_steps(
    at: At, before: Placed, after: Placed, names: Sequence[str], titles: Mapping[str, str]
) -> Iterator[Difference]:
    """What differs in one step: what it does, then its words, then the warnings that apply to it.

    `names` are the words for things of the hold, `titles` those of warnings by the name of their hazard.
    """
    here = at.down("steps", after.key)
    does = list(_does(here, before, after))
    yield from does
    yield from _marks(here, before, after, titles)
    said = list(_texts(here, before.step, after.step, names))
    # What the step does shows in its words too: once is enough, unless the words alone are graver.
    if does and not any(one.classed is DifferenceClass.LOOSENED for one in said):
        said = []
    for one in said:
        field = one.identity.rsplit("/", 1)[-1].replace("-", "_")
        told = replace(one, subject=f"{called(after)}: {_FIELD_WORDS.get(field, field)}")
        sides = {
            which: side(placed, getattr(placed.step, field) or "nothing")
            for which, placed in (("was", before), ("now", after))
        }
        yield replace(told, was=sides["was"], now=sides["now"])


def called(one: Placed) -> str:
    """What a step is called in a list: where it is and what it does."""
    part = one.part.replace("bay-", "unit of ") if one.part.startswith("bay-") else one.part.replace("-", " ")
    return f"{part}: step “{unmarked(one.step.text).replace('**', '')}”"


def side(one: Placed, text: str | None = None) -> Side:
    """One side of a difference at a step: a text, by default its words, where it was written, its number."""
    place = one.step.cause or place_of(one.step.step, Side("").place)
    return Side(unmarked(one.step.text if text is None else text), place, one.step.number)


def number_change(was: Any, now: Any) -> NumberChange | None:
    """The change between two amounts; None where either is missing."""
    return NumberChange(was, now) if was is not None and now is not None else None


def _marks(at: At, before: Placed, after: Placed, titles: Mapping[str, str]) -> Iterator[Difference]:
    """Warnings at the head that come with this step, of those that both pages give."""
    was, now = set(before.step.marks), set(after.step.marks)
    for name in sorted(was ^ now):
        gone, title = name in was, titles.get(name, name)
        told = make(
            at.down("marks", name),
            DifferenceKind.REMOVED if gone else DifferenceKind.ADDED,
            DifferenceClass.LOOSENED if gone else DifferenceClass.TIGHTENED,
            "a warning applies to the step no more" if gone else "one more warning applies to the step",
            title if gone else None,
            None if gone else title,
        )
        yield replace(told, subject=f"{called(after)}: warning “{title}”")


def _does(at: At, before: Placed, after: Placed) -> Iterator[Difference]:
    was, now = before.step.step, after.step.step
    if type(was) is not type(now):
        yield replace(
            make(
                at.down("verb"),
                DifferenceKind.CHANGED,
                DifferenceClass.LOOSENED,
                "another action",
                before.step.text,
                after.step.text,
            ),
            subject=called(after),
        )
        return
    if was is None or now is None or isinstance(now, steps.Note):
        return
    skip = frozenset({"unit"})
    for one in fields_of(at, was, now, {}, skip):
        told = replace(one, subject=f"{called(after)}: {one.subject.split(':')[-1].split()[-1]}")
        yield replace(told, was=_numbered(one.was, before), now=_numbered(one.now, after))


def _numbered(side: Side | None, placed: Placed) -> Side | None:
    if side is None:
        return None
    return Side(side.text, placed.step.cause or side.place, placed.step.number)


def _texts(at: At, was: PageStep, now: PageStep, names: Sequence[str]) -> Iterator[Difference]:
    for field in _TEXTS:
        before, after = getattr(was, field), getattr(now, field)
        change = compare_texts(before, after, names)
        if change is None:
            continue
        classed, why = change.classed, change.why
        if field == "who" and classed is DifferenceClass.WORDING:
            classed, why = DifferenceClass.CHANGED, "somebody else does it"
        elif not after and field in ("done_when", "if_not"):
            classed, why = (
                DifferenceClass.LOOSENED,
                "nothing says any more when it is done or what else to do",
            )
        elif not before and field == "done_when":
            # Whatever words it is made of: where nothing ended the step, an end to wait for asks for more.
            classed, why = DifferenceClass.TIGHTENED, "it says now when the step is done"
        elif not before and classed is DifferenceClass.WORDING and field != "why":
            classed, why = DifferenceClass.TIGHTENED, "it says more than before"
        yield make(
            at.down(field.replace("_", "-")),
            DifferenceKind.CHANGED,
            classed,
            why,
            before or "nothing",
            after or "nothing",
            number_change(change.was, change.now),
        )
