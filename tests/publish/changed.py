"""A revision of a demonstration station, told against one in which each kind of page says something else."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache

from procgen.diff import differences
from procgen.results.changes import Changed, Changes, Part
from procgen.results.edition import Edition
from procgen.results.matrix import Answer
from procgen.results.page import (
    HoldSite,
    ItemAnswer,
    OutOfServiceGuide,
    PageBlock,
    ProcedurePage,
    RecoveryGuide,
    StationSite,
)
from procgen.results.recovery import Outcome
from tests.publish.sites import WITH_RECOVERIES, site

HOLD = "SR-AFT"
GUIDE = "SR-AFT-loading"
ITEM = ("lock-42", "down")
"""The item out of service, and how, about which the matrix of `HOLD` says something else."""
PUSHED = "MR-FWD"
NEW_HOLD = "MR-FWD-M9"
GENTLY = "Push gently too."


@cache
def changed() -> Edition:
    """The station as it is, told against what it was: a hold less, other ways, another matrix, other words.

    One after the other, so that none of these differences is told by another one.
    """
    now = site(WITH_RECOVERIES)
    told = tuple(one for was in _befores(now) for one in differences(was, now))
    listed = Changes(1, tuple(Changed(one, (Part(0, one),)) for one in told))
    return Edition(now, differences=told, first=False, against=1, changes=(listed,))


def _befores(now: StationSite) -> Iterator[StationSite]:
    yield replace(now, holds=tuple(one for one in now.holds if one.hold.name != NEW_HOLD))
    for change in (_other_ways, _other_matrix, _other_words):
        yield replace(now, holds=tuple(change(one) for one in now.holds))


def _other_ways(hold: HoldSite) -> HoldSite:
    return replace(
        hold, recoveries=tuple(_calling(one) if one.name == GUIDE else one for one in hold.recoveries)
    )


def _other_matrix(hold: HoldSite) -> HoldSite:
    guide = hold.out_of_service
    return replace(hold, out_of_service=_unusable(guide)) if guide and hold.hold.name == HOLD else hold


def _other_words(hold: HoldSite) -> HoldSite:
    return (
        replace(hold, pages=tuple(_gently(one) for one in hold.pages)) if hold.hold.name == PUSHED else hold
    )


def _calling(guide: RecoveryGuide) -> RecoveryGuide:
    """With a call in the place of the first way that leads home."""
    number = next(n for n, way in enumerate(guide.ways) if way.outcome is Outcome.BROUGHT_HOME)
    called = replace(guide.ways[number], outcome=Outcome.CALL, title="Leave it as it is, and call.")
    return replace(guide, ways=(*guide.ways[:number], called, *guide.ways[number + 1 :]))


def _unusable(guide: OutOfServiceGuide) -> OutOfServiceGuide:
    """With no position usable when the item is out of service."""
    return replace(
        guide,
        items=tuple(
            replace(item, answers=tuple(_none(one) for one in item.answers))
            if (item.item, item.failure) == ITEM
            else item
            for item in guide.items
        ),
    )


def _none(answer: ItemAnswer) -> ItemAnswer:
    return replace(answer, answers=(Answer.NOT_USABLE,), procedure=None, left_out=(), put_in=(), limits=())


def _gently(page: ProcedurePage) -> ProcedurePage:
    """With other words in every step that pushes, alone and in folds."""

    def block(one: PageBlock) -> PageBlock:
        steps = tuple(
            replace(step, text=f"{step.text} {GENTLY}") if step.text.startswith("Push ") else step
            for step in one.steps
        )
        return replace(one, steps=steps)

    return replace(page, blocks=tuple(block(one) for one in page.blocks))
