"""The cycles of a page that differ only in names, said once with a table."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace
from itertools import groupby

from procgen.model.hold import Hold
from procgen.model.step import Procedure
from procgen.model.words import Operation
from procgen.results.page import PageBlock, PageFold, PageStep, PageTurn
from procgen.write import phrases, words
from procgen.write.alike import Alike, Column
from procgen.write.columns import labels, titles
from procgen.write.folding import fold

_MOST_COLUMNS = 6
"""A table with more columns than this is harder to work by than the cycles themselves."""


def page_folds(procedure: Procedure, blocks: Sequence[PageBlock], hold: Hold) -> tuple[PageFold, ...]:
    """Every stretch of blocks that stands for others like it, in the order of the page.

    Blocks are folded whose steps have one shape and whose words differ only in names: the warnings before
    each step, marks, checks, reasons, limits, types and remarks are the same, letter by letter.
    """
    groups = _same_shape(procedure, blocks)
    folds: list[PageFold] = []
    for group in groups:
        for alike in _same_words(group, hold):
            folds += _folds(alike, blocks, procedure.operation, hold)
    order = {block.letter: number for number, block in enumerate(blocks)}
    return tuple(sorted(folds, key=lambda one: order[one.turns[0].letter]))


def _same_shape(procedure: Procedure, blocks: Sequence[PageBlock]) -> list[list[PageBlock]]:
    by_index = {step.index: block for block in blocks for step in block.steps}
    groups: dict[int, list[PageBlock]] = defaultdict(list)
    for turn in fold(procedure.steps).turns():
        block = by_index[next(index for index in range(turn.start, turn.end) if index in by_index)]
        groups[turn.pattern].append(block)
    return list(groups.values())


def _same_words(group: Sequence[PageBlock], hold: Hold) -> list[list[PageBlock]]:
    """A group cut into those that differ only in names; each block joins the first that it is like."""
    found: list[list[PageBlock]] = []
    for block in group:
        for alike in found:
            if _merged([alike[0], block], Alike(list(titles(hold)))) is not None:
                alike.append(block)
                break
        else:
            found.append([block])
    return [alike for alike in found if len(alike) > 1]


def _merged(blocks: Sequence[PageBlock], alike: Alike) -> tuple[str, tuple[PageStep, ...]] | None:
    """The intro and the steps for all of these blocks; None where they differ in more than names."""
    if any(block.warnings for block in blocks[1:]):
        return None
    intro = alike.merged([block.intro for block in blocks])
    if intro is None or len({len(block.steps) for block in blocks}) > 1:
        return None
    steps = []
    for across in zip(*(block.steps for block in blocks), strict=True):
        step = _merged_step(across, alike)
        if step is None:
            return None
        steps.append(step)
    return intro, tuple(steps)


def _merged_step(across: Sequence[PageStep], alike: Alike) -> PageStep | None:
    first = across[0]
    if any(
        (step.who, step.warnings, step.marks) != (first.who, first.warnings, first.marks) for step in across
    ):
        return None
    text = alike.merged([step.text for step in across])
    done_when = alike.merged([step.done_when for step in across])
    if_not = alike.merged([step.if_not for step in across])
    then = alike.merged([step.then for step in across])
    why = alike.merged([step.why for step in across])
    if text is None or done_when is None or if_not is None or then is None or why is None:
        return None
    return replace(first, text=text, done_when=done_when, if_not=if_not, then=then, why=why)


def _folds(
    group: Sequence[PageBlock], blocks: Sequence[PageBlock], operation: Operation, hold: Hold
) -> list[PageFold]:
    """One fold for each stretch of blocks of a group that stand side by side."""
    heads = [Column(tuple(words.bay(block.bay) for block in group))]
    if any(block.title != phrases.CYCLE[operation].format(bay=block.bay) for block in group):
        heads.append(Column(tuple(phrases.UNIT_NAMED.format(name=block.unit) for block in group)))
    alike = Alike(list(titles(hold)), heads)
    merged = _merged(group, alike)
    if merged is None or len(alike.columns) > _MOST_COLUMNS:
        return []
    intro, steps = merged
    named = labels(alike.columns, hold)
    rows = list(zip(*(column.names for column in alike.columns), strict=True))
    where = {block.letter: number for number, block in enumerate(blocks)}
    turns = [
        PageTurn(block.letter, block.bay, block.steps[0].number, block.steps[-1].number, names)
        for block, names in zip(group, rows, strict=True)
    ]
    found = []
    for number, (_, stretch) in enumerate(
        groupby(enumerate(turns), key=lambda one: where[one[1].letter] - one[0])
    ):
        own = tuple(turn for _, turn in stretch)
        bays = words.listing([turn.bay for turn in own])
        found.append(
            PageFold(
                title=phrases.CYCLE[operation].format(bay=bays),
                labels=named,
                turns=own,
                intro=intro if number == 0 else "",
                warnings=group[0].warnings if number == 0 else (),
                steps=steps if number == 0 else (),
                like="" if number == 0 else group[0].letter,
            )
        )
    return found
