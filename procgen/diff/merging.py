"""What is one and the same difference told once: shared texts, numbers that pages take from the data."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from procgen.diff.texts import changed_amounts
from procgen.results.difference import Difference, DifferenceKind, NumberChange, Side

_CHECK_TEXT = re.compile(
    r"(?P<hold>[^/]+)/pages/[^/]+/steps/[^/:]+:(?:check|report):(?P<name>[^/@.]+)[^/]*"
    r"/(?P<field>text|why|done-when|if-not|who|then)"
)
_FLEET = re.compile(r"[^/]+/(?P<path>(?:unit-types|contours|aircraft)/.+)")
_WARNING_TEXT = re.compile(
    r"[^/]+/pages/[^/]+/warnings/(?P<name>[^/]+)/(?P<field>signal|title|hazard|consequence|avoid)"
)


def merged(found: Iterable[Difference]) -> tuple[Difference, ...]:
    """One difference for a text that changed alike wherever it stands, and none for words that only follow a
    number of the data: their places are marked by the number's own difference.
    """
    once = list(_alike(found))
    numbers = [one for one in once if one.number is not None and not _is_text(one)]
    leads: dict[str, list[Difference]] = {}
    kept: list[Difference] = []
    for one in once:
        lead = _lead(one, numbers) if _is_text(one) else None
        if lead is None:
            kept.append(one)
        else:
            leads.setdefault(lead.identity, []).append(one)
    return tuple(_marked(one, leads.get(one.identity, ())) for one in kept)


def _is_text(one: Difference) -> bool:
    """Whether it is about words of a page."""
    return "/pages/" in one.identity or "/checks/" in one.identity


def _lead(one: Difference, numbers: Sequence[Difference]) -> Difference | None:
    """The difference of the data whose number these words repeat, all other words being the same."""
    if one.kind is not DifferenceKind.CHANGED or one.was is None or one.now is None:
        return None
    amounts = changed_amounts(one.was.text, one.now.text)
    if not amounts:
        return None
    for other in numbers:
        change = other.number
        same_hold = not other.hold or other.hold == one.hold
        if change is not None and same_hold and other.classed is one.classed and _repeats(change, amounts):
            return other
    return None


def _repeats(change: NumberChange, amounts: Sequence[tuple[NumberChange, NumberChange]]) -> bool:
    """Whether every changed amount is that number, to the last place that is shown."""
    return all(
        said.was.dimension is change.was.dimension
        and abs(said.was.si - change.was.si) < last.was.si
        and abs(said.now.si - change.now.si) < last.now.si
        for said, last in amounts
    )


def _marked(one: Difference, followers: Sequence[Difference]) -> Difference:
    anchors = dict.fromkeys(anchor for each in (one, *followers) for anchor in each.anchors)
    return replace(one, anchors=tuple(anchors)) if followers else one


def _short(identity: str) -> str:
    """The identity of a text or number that many steps, pages or holds share."""
    check, warning = _CHECK_TEXT.fullmatch(identity), _WARNING_TEXT.fullmatch(identity)
    if check:
        return f"{check['hold']}/checks/{check['name']}/{check['field']}"
    if warning:
        return f"warnings/{warning['name']}/{warning['field']}"
    fleet = _FLEET.fullmatch(identity)
    return fleet["path"] if fleet else identity


def _alike(found: Iterable[Difference]) -> Iterator[Difference]:
    groups: dict[str, list[Difference]] = {}
    for one in found:
        groups.setdefault(_short(one.identity), []).append(one)
    for identity, group in groups.items():
        first = group[0]
        if any(_said(one) != _said(first) for one in group):
            yield from _counted(group)
            continue
        anchors = dict.fromkeys(anchor for one in group for anchor in one.anchors)
        yield replace(
            first,
            identity=identity,
            anchors=tuple(anchors),
            page=first.page if len({one.page for one in group}) == 1 else "",
            hold=first.hold if len({one.hold for one in group}) == 1 else "",
        )


def _said(one: Difference) -> tuple[object, ...]:
    return one.classed, _text(one.was), _text(one.now)


def _text(side: Side | None) -> str | None:
    return None if side is None else side.text


def _counted(group: list[Difference]) -> Iterator[Difference]:
    """Differences of one identity told apart by their number."""
    seen: dict[str, int] = {}
    for one in group:
        seen[one.identity] = seen.get(one.identity, 0) + 1
        count = seen[one.identity]
        yield one if count == 1 else replace(one, identity=f"{one.identity}.{count}")
