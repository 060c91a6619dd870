"""The steps of two versions of a procedure, aligned for reading side by side."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from procgen.diff.stepping import Placed, blocks_by_part, match, placed_steps
from procgen.results.aligned import AlignedPage, AlignedStep
from procgen.results.difference import Difference
from procgen.results.page import ProcedurePage


def aligned_page(was: ProcedurePage, now: ProcedurePage, found: Sequence[Difference]) -> AlignedPage:
    """Every step of either page once, in the newer page's order; one that went stands where it stood."""
    before, after = placed_steps(was), placed_steps(now)
    matched = match(before, after)
    partner = {id(other): one for one, other in matched.pairs}
    own = {id(one) for one, _ in matched.pairs}
    titles = {part: block.title for page in (was, now) for part, block in blocks_by_part(page).items()}
    at_step = _by_step(found, now.name)
    rows: list[AlignedStep] = []
    waiting = list(before)
    for other in after:
        one = partner.get(id(other))
        if one is not None and one in waiting:
            # What went before this step on the older side comes first.
            ahead = waiting[: waiting.index(one)]
            rows += [_row(titles, gone, None, at_step) for gone in ahead if id(gone) not in own]
            waiting = [each for each in waiting[: waiting.index(one)] if id(each) in own] + waiting[
                waiting.index(one) + 1 :
            ]
        rows.append(_row(titles, one, other, at_step))
    rows += [_row(titles, gone, None, at_step) for gone in waiting if id(gone) not in own]
    return AlignedPage(now.name, now.title, tuple(rows))


def _row(
    titles: Mapping[str, str],
    was: Placed | None,
    now: Placed | None,
    at_step: tuple[Mapping[int, list[str]], Mapping[int, list[str]]],
) -> AlignedStep:
    older, newer = at_step
    part = now.part if now else was.part if was else ""
    found = newer.get(now.step.number, []) if now else older.get(was.step.number, []) if was else []
    return AlignedStep(
        part=titles.get(part, part),
        was=was.step if was else None,
        now=now.step if now else None,
        identities=tuple(dict.fromkeys(found)),
    )


def _by_step(found: Sequence[Difference], page: str) -> tuple[dict[int, list[str]], dict[int, list[str]]]:
    """The identities of differences by step number, of steps that went and of steps that are."""
    older: dict[int, list[str]] = {}
    newer: dict[int, list[str]] = {}
    for one in found:
        for anchor in one.anchors:
            kind, _, step = anchor.element.partition(":")
            if anchor.page == "procedure" and anchor.name == page and kind == "step" and step:
                newer.setdefault(int(step), []).append(one.identity)
        if one.page == page and one.now is None and one.was is not None and one.was.step:
            older.setdefault(one.was.step, []).append(one.identity)
    return older, newer
