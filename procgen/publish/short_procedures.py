"""The short procedures for what can be worked with an item out of service, ready to be laid out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from procgen.publish.limit_rows import OPERATION_WORDS
from procgen.publish.out_of_service import anchor_of
from procgen.results.page import HoldSite, OutOfServiceGuide, PageStep, PageWarning, ShortProcedure


@dataclass(frozen=True, slots=True)
class ShownBlock:
    """A block of a short procedure; its steps with the numbers that run through the page."""

    title: str
    intro: str
    warnings: tuple[PageWarning, ...]
    steps: tuple[tuple[int, PageStep], ...]


@dataclass(frozen=True, slots=True)
class ShownProcedure:
    """A short procedure, with the items that it is for: the words and the anchor of each."""

    name: str
    title: str
    operation: str
    warnings: tuple[PageWarning, ...]
    blocks: tuple[ShownBlock, ...]
    units: tuple[tuple[str, str, str], ...]
    items: tuple[tuple[str, str], ...]


def procedures_shown(hold: HoldSite) -> Iterator[ShownProcedure]:
    """The short procedures of a hold, each with the items that it is for."""
    guide = hold.out_of_service
    if guide is None:
        return
    for number, procedure in enumerate(guide.procedures):
        items = tuple(
            (one.words, anchor_of(one))
            for one in guide.items
            if any(answer.procedure == number for answer in one.answers)
        )
        yield _procedure(guide, procedure, items)


def _procedure(
    guide: OutOfServiceGuide, procedure: ShortProcedure, items: tuple[tuple[str, str], ...]
) -> ShownProcedure:
    blocks: list[ShownBlock] = []
    number = 0
    for block in procedure.blocks:
        steps = tuple(
            (count, guide.steps[index]) for count, index in enumerate(block.steps, start=number + 1)
        )
        number += len(steps)
        blocks.append(
            ShownBlock(block.title, block.intro, tuple(guide.warnings[one] for one in block.warnings), steps)
        )
    return ShownProcedure(
        procedure.name,
        procedure.title,
        OPERATION_WORDS[procedure.operation],
        tuple(guide.warnings[one] for one in procedure.warnings),
        tuple(blocks),
        procedure.units,
        items,
    )
