"""From a review to both versions side by side, drawings included."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from procgen import diff, draw
from procgen.results.aligned import AlignedHold, AlignedPage, AlignedStep, SideBySide
from procgen.results.difference import Reviewed
from procgen.results.page import HoldSite

_OLDER = "was-"
_TITLE = re.compile(r"<(title|desc)[^>]*>.*?</\1>", re.DOTALL)


def side_by_side(reviewed: Reviewed) -> SideBySide:
    """Every hold of both sides in which something differs."""
    return SideBySide(reviewed, tuple(_holds(reviewed)))


def _holds(reviewed: Reviewed) -> Iterator[AlignedHold]:
    comparison = reviewed.comparison
    was, now = comparison.was.site.holds, comparison.now.site.holds
    before = {one.hold.name: one for one in was}
    same_hold = bool(comparison.was.hold and comparison.now.hold)
    for one in now:
        other = was[0] if same_hold else before.get(one.hold.name)
        if other is not None:
            yield _hold(reviewed, other, one)


def _hold(reviewed: Reviewed, was: HoldSite, now: HoldSite) -> AlignedHold:
    views = draw.compared_views(was.hold, now.hold)
    pages = tuple(_pages(reviewed, was, now))
    drawn = any(step.was_view or step.now_view for page in pages for step in page.steps)
    return AlignedHold(
        name=now.hold.name,
        title=now.hold.title,
        was_view=_older(views[0]) if views else "",
        now_view=views[1] if views else "",
        symbols=f"{_older(was.symbols)}\n{now.symbols}" if drawn else "",
        pages=pages,
    )


def _pages(reviewed: Reviewed, was: HoldSite, now: HoldSite) -> Iterator[AlignedPage]:
    before = {page.name: page for page in was.pages}
    told = reviewed.comparison.differences
    for page in now.pages:
        other = before.get(page.name)
        marked = any(a.page == "procedure" and a.name == page.name for one in told for a in one.anchors)
        if other is None or not marked:
            continue
        aligned = diff.aligned_page(other, page, told)
        yield replace(aligned, steps=tuple(_drawn(step, was, now, page.name) for step in aligned.steps))


def _drawn(step: AlignedStep, was: HoldSite, now: HoldSite, page: str) -> AlignedStep:
    """The step with its drawings, where it differs and they do."""
    if not step.identities:
        return step
    before = was.diagrams.get(page, {}).get(step.was.number, "") if step.was else ""
    after = now.diagrams.get(page, {}).get(step.now.number, "") if step.now else ""
    if _TITLE.sub("", before) == _TITLE.sub("", after):
        return step
    return replace(step, was_view=_older(before), now_view=after)


def _older(markup: str) -> str:
    """Markup of the older side, its names told apart from the newer side's."""
    return re.sub(r'(\bid="|href="#|url\(#)', rf"\g<1>{_OLDER}", markup)
