"""The cycles of a page that differ only in names, said once with a table."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from procgen.model.hold import Hold
from procgen.model.step import Procedure
from procgen.results.page import PageBlock, PageFold, PageStep, PageTurn
from procgen.write import phrases, words
from procgen.write.alike import Alike, Column
from procgen.write.columns import labels, titles
from procgen.write.cycle_words import title_phrase
from procgen.write.folding import fold

_MOST_COLUMNS = 7
"""A table with more columns than this is harder to work by than the cycles themselves."""


def page_folds(procedure: Procedure, blocks: Sequence[PageBlock], hold: Hold) -> tuple[PageFold, ...]:
    """Every run of blocks side by side that differ only in names, in the order of the page.

    Blocks are folded whose steps have one shape and whose words differ only in names: the warnings before
    each step, marks, checks, reasons, limits, types and remarks are the same, letter by letter. Blocks that
    stand apart are never folded: whoever has to turn back to another block loses the place.
    """
    folds = []
    run: list[PageBlock] = []
    patterns = _patterns(procedure, blocks)
    for block in blocks:
        if run and (
            patterns.get(block.letter) != patterns[run[0].letter] or not _fits(procedure, [*run, block], hold)
        ):
            folds += _folded(run, procedure, hold)
            run = []
        if block.letter in patterns:
            run.append(block)
    return (*folds, *_folded(run, procedure, hold))


def _patterns(procedure: Procedure, blocks: Sequence[PageBlock]) -> Mapping[str, int]:
    """The pattern of the steps of each block that has one, by its letter."""
    by_index = {step.index: block.letter for block in blocks for step in block.steps}
    return {
        by_index[next(index for index in range(turn.start, turn.end) if index in by_index)]: turn.pattern
        for turn in fold(procedure.steps).turns()
    }


def _title(procedure: Procedure, block: PageBlock) -> str:
    """The title of a block with a field for its bay."""
    return title_phrase(procedure, block.unit, [procedure.steps[step.index] for step in block.steps])


def _fits(procedure: Procedure, blocks: Sequence[PageBlock], hold: Hold) -> bool:
    """Whether these blocks can be said as one, in a table that can be read."""
    if len({_title(procedure, block) for block in blocks}) > 1:
        return False
    alike = Alike(list(titles(hold)))
    return _merged(blocks, alike) is not None and len(alike.columns) <= _MOST_COLUMNS - 2


def _folded(run: Sequence[PageBlock], procedure: Procedure, hold: Hold) -> list[PageFold]:
    if len(run) < 2:
        return []
    title = _title(procedure, run[0])
    heads = [Column(tuple(words.bay(block.bay) for block in run))]
    if any(block.title != title.format(bay=block.bay) for block in run):
        heads.append(Column(tuple(phrases.UNIT_NAMED.format(name=block.unit) for block in run)))
    alike = Alike(list(titles(hold)), heads)
    merged = _merged(run, alike)
    if merged is None:
        return []
    intro, steps = merged
    turns = tuple(
        PageTurn(block.letter, block.bay, block.steps[0].number, block.steps[-1].number, names)
        for block, names in zip(
            run, zip(*(column.names for column in alike.columns), strict=True), strict=True
        )
    )
    bays = words.listing([block.bay for block in run])
    return [
        PageFold(
            title=title.format(bay=bays),
            labels=labels(alike.columns, hold),
            turns=turns,
            intro=intro,
            warnings=run[0].warnings,
            steps=steps,
        )
    ]


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
