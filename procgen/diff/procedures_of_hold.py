"""The procedures of two versions of a hold compared: which is which, then each by meaning."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Any

from procgen.diff.page_aircraft import page_aircraft
from procgen.diff.procedures import compare_pages
from procgen.diff.walk import At, came_or_went, make
from procgen.results.difference import Anchor, Difference, DifferenceClass, DifferenceKind
from procgen.results.page import HoldSite, ProcedurePage


def compare_procedures(at: At, was: HoldSite, now: HoldSite) -> Iterator[Difference]:
    """What differs between the procedures of a hold: those that came, went or were renamed among them."""
    names = words_for_things(now)
    before = {one.name: one for one in was.pages}
    after = {one.name: one for one in now.pages}
    for old, new in renamed_procedures(was, now).items():
        told = make(
            at.down("pages", new, "renamed"),
            DifferenceKind.RENAMED,
            DifferenceClass.WORDING,
            "the same procedure under another name",
            old,
            new,
        )
        yield replace(told, page=new, anchors=(Anchor("procedure", new, ""),))
        before[new] = before.pop(old)
    for name in dict.fromkeys((*after, *before)):
        here = at.down("pages", name).of("HoldSite", "pages")
        low, high = before.get(name), after.get(name)
        if low is not None and high is not None:
            yield from compare_pages(here, low, high, names)
            yield from page_aircraft(here, (was, low), (now, high))
            continue
        one = low or high
        if one is not None:
            told = came_or_went(here, low and low.title, high and high.title)
            # A procedure that went has no page any more: the page of the hold says so.
            listed = Anchor("hold", at.hold, f"pages:{name}")
            anchors = (listed,) if high is None else (listed, Anchor("procedure", name, ""))
            yield replace(told, page=name, anchors=anchors)


def renamed_procedures(was: HoldSite, now: HoldSite) -> dict[str, str]:
    """The new name of each procedure of a hold that is there under another one."""
    before, after = ({page.name: page for page in site.pages} for site in (was, now))
    return _same_work(
        [page for name, page in before.items() if name not in after],
        [page for name, page in after.items() if name not in before],
    )


def _same_work(gone: list[ProcedurePage], new: list[ProcedurePage]) -> dict[str, str]:
    """Procedures that do the same under another name."""
    found: dict[str, str] = {}
    for one in new:
        for other in gone:
            if other.name not in found and other.units == one.units and _steps(other) == _steps(one):
                found[other.name] = one.name
                break
    return found


def _steps(page: ProcedurePage) -> tuple[Any, ...]:
    return tuple(step.step for block in page.blocks for step in block.steps)


def words_for_things(site: HoldSite) -> tuple[str, ...]:
    """The words by which pages call what a hold has."""
    hold = site.hold
    titled: Iterable[Mapping[str, Any]] = (
        hold.restraints,
        hold.controls,
        hold.panels,
        hold.doors,
        hold.drives,
    )
    return tuple({thing.title for things in titled for thing in things.values()} | set(hold.positions))
