"""Two procedure pages compared step by step, by what each step does."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

from procgen.diff.order import moved
from procgen.diff.step_changes import called, compare_steps, number_change, side
from procgen.diff.stepping import Matched, Placed, blocks_by_part, match, placed_steps
from procgen.diff.texts import compare_texts
from procgen.diff.walk import At, fields_of, make, value
from procgen.diff.warned import compare_warnings, warning_titles
from procgen.results.difference import (
    Anchor,
    Difference,
    DifferenceClass,
    DifferenceKind,
)
from procgen.results.page import PageBlock, ProcedurePage

_SECURING = frozenset({"check", "checkitems", "checklatch", "raise", "fit", "close", "report", "note", "say"})
"""Verbs of steps that make safe: one that goes loosens, one that comes tightens."""
_WORKING = frozenset({"open", "lower", "remove", "setcontrol", "present", "drive", "push", "stow", "section"})
"""Verbs of steps that do the work: what they leave unsafe shows in the steps that secure."""
_DONE = frozenset(
    {"name", "hold", "title", "generated", "warnings", "blocks", "units", "folds", "effectivity"}
)
"""Fields of a page that are compared by hand here, or that follow from others."""


def compare_pages(
    at: At, was: ProcedurePage, now: ProcedurePage, names: Sequence[str]
) -> Iterator[Difference]:
    """Every difference between two procedures. `names` are the words for things of the hold."""
    if was == now:
        return
    here = replace(at, hold=at.hold or now.hold)
    for field in ("title", "generated"):
        below = here.down(field).of("ProcedurePage", field)
        for one in value(below, getattr(was, field), getattr(now, field)):
            yield _on(one, now)
    for one in fields_of(here, was, now, {}, _DONE):
        yield _on(one, now)
    yield from _units(here, was, now)
    found = match(placed_steps(was), placed_steps(now))
    yield from _parts(here, was, now)
    yield from _gone_and_new(here, was, now, found)
    yield from _moved(here, now, found)
    titles = {**warning_titles(was), **warning_titles(now)}
    for before, after in found.pairs:
        for one in compare_steps(here, before, after, names, titles):
            yield _on(one, now, after.step.number)
    yield from compare_warnings(here, was, now, found)


def _on(found: Difference, page: ProcedurePage, at: object = None, kind: str = "step") -> Difference:
    """The difference, said to be on a page and at a step, or another kind of element, of it."""
    element = f"{kind}:{at}" if at is not None else ""
    return replace(
        found,
        page=page.name,
        hold=page.hold,
        anchors=(Anchor("procedure", page.name, element),),
    )


def _units(at: At, was: ProcedurePage, now: ProcedurePage) -> Iterator[Difference]:
    before = {bay: unit_type for _, unit_type, bay in was.units}
    after = {bay: unit_type for _, unit_type, bay in now.units}
    for bay in dict.fromkeys((*after, *before)):
        here = at.down("units", bay).of("ProcedurePage", "units")
        low, high = before.get(bay), after.get(bay)
        if low == high:
            continue
        kind = _kind(low, high)
        classed = here.direction.changed
        told = make(here, kind, classed, "another load", low, high)
        yield _on(replace(told, subject=f"unit for {bay}"), now, bay, "unit")


def _kind(was: object, now: object) -> DifferenceKind:
    if was is None:
        return DifferenceKind.ADDED
    return DifferenceKind.REMOVED if now is None else DifferenceKind.CHANGED


def _parts(at: At, was: ProcedurePage, now: ProcedurePage) -> Iterator[Difference]:
    """Blocks in another order, and their words."""
    before, after = blocks_by_part(was), blocks_by_part(now)
    for part in moved(list(before), list(after)):
        told = make(
            at.down("blocks", part, "order"),
            DifferenceKind.MOVED,
            DifferenceClass.CHANGED,
            "the work is done in another order",
            f"block {before[part].letter}",
            f"block {after[part].letter}",
        )
        yield _on(replace(told, subject=f"block “{after[part].title}”"), now, after[part].letter, "block")
    for part in after:
        if part not in before:
            continue
        for field in ("title", "intro"):
            yield from _block_text(at, now, part, field, before[part], after[part])


def _block_text(
    at: At, page: ProcedurePage, part: str, field: str, was: Any, now: Any
) -> Iterator[Difference]:
    change = compare_texts(getattr(was, field), getattr(now, field))
    if change is None:
        return
    told = make(
        at.down("blocks", part, field),
        DifferenceKind.CHANGED,
        change.classed,
        change.why,
        getattr(was, field) or "nothing",
        getattr(now, field) or "nothing",
        number_change(change.was, change.now),
    )
    yield _on(replace(told, subject=f"block “{now.title}”: {field}"), page, now.letter, "block")


def _gone_and_new(at: At, was: ProcedurePage, now: ProcedurePage, found: Matched) -> Iterator[Difference]:
    before, after = blocks_by_part(was), blocks_by_part(now)
    lost = {part for part in before if part not in after and part.startswith("bay-")}
    come = {part for part in after if part not in before and part.startswith("bay-")}
    for part in sorted(lost):
        block = before[part]
        told = _block(at, part, block, gone=True)
        stood = block.steps[0].number - 1 if block.steps else 0
        yield _on(told, now, found.behind(stood), "after")
    for part in sorted(come):
        yield _on(_block(at, part, after[part], gone=False), now, after[part].letter, "block")
    for one in found.gone:
        if one.part not in lost:
            told = _single(at, one, gone=True)
            yield _on(told, now, found.behind(one.step.number - 1), "after")
    for one in found.new:
        if one.part not in come:
            yield _on(_single(at, one, gone=False), now, one.step.number)


def _block(at: At, part: str, block: PageBlock, *, gone: bool) -> Difference:
    kind = DifferenceKind.REMOVED if gone else DifferenceKind.ADDED
    text = f"{len(block.steps)} steps"
    told = make(
        at.down("blocks", part),
        kind,
        DifferenceClass.CHANGED,
        "the steps of one unit, all of them",
        text if gone else None,
        None if gone else text,
    )
    return replace(told, subject=f"block “{block.title}”")


def _single(at: At, one: Placed, *, gone: bool) -> Difference:
    """A step that went or came."""
    if one.verb in _SECURING:
        classed = DifferenceClass.LOOSENED if gone else DifferenceClass.TIGHTENED
        why = "a step that makes safe " + ("went" if gone else "came")
    elif one.verb in _WORKING:
        classed, why = DifferenceClass.CHANGED, "a step of the work " + ("went" if gone else "came")
    else:
        classed, why = DifferenceClass.LOOSENED, "nothing says that this step is harmless"
    stands = side(one)
    told = make(
        at.down("steps", one.key),
        DifferenceKind.REMOVED if gone else DifferenceKind.ADDED,
        classed,
        why,
        stands.text if gone else None,
        None if gone else stands.text,
    )
    return replace(told, subject=called(one), was=stands if gone else None, now=None if gone else stands)


def _moved(at: At, page: ProcedurePage, found: Matched) -> Iterator[Difference]:
    """Steps that stand elsewhere: in another part, or in another order within their own."""
    together: dict[str, list[tuple[Placed, Placed]]] = {}
    for before, after in found.pairs:
        if before.part != after.part:
            yield _move(at, page, before, after)
        else:
            together.setdefault(after.part, []).append((before, after))
    for pairs in together.values():
        was = sorted(pairs, key=lambda pair: pair[0].step.number)
        order = [after.key for _, after in was]
        by_key = {after.key: (before, after) for before, after in pairs}
        for key in moved(order, [after.key for _, after in pairs]):
            yield _move(at, page, *by_key[key])


def _move(at: At, page: ProcedurePage, before: Placed, after: Placed) -> Difference:
    told = make(
        at.down("steps", before.key, "order"),
        DifferenceKind.MOVED,
        DifferenceClass.CHANGED,
        "the same step at another point",
        "",
        "",
    )
    told = replace(
        told,
        subject=called(after),
        was=side(before, f"step {before.step.number}"),
        now=side(after, f"step {after.step.number}"),
    )
    return _on(told, page, after.step.number)
