"""The warnings of two pages: which came, which went, which stand elsewhere, which say something else."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import replace

from procgen.diff.stepping import Matched, blocks_by_part, placed_steps
from procgen.diff.texts import compare_texts
from procgen.diff.walk import At, make
from procgen.results.difference import Anchor, Difference, DifferenceClass, DifferenceKind
from procgen.results.page import PageWarning, ProcedurePage

_GRAVITY = ("note", "caution", "warning")
_TEXTS = ("title", "hazard", "consequence", "avoid")
PAGE = "page"

Standing = tuple[str, PageWarning]
"""Where a warning stands, and the warning."""


def compare_warnings(at: At, was: ProcedurePage, now: ProcedurePage, found: Matched) -> Iterator[Difference]:
    """Every difference between the warnings of two pages, by the name of their hazard.

    One that is there is marked where it stands; one that went, or that stands elsewhere, at those places.
    """
    here = replace(at, hold=at.hold or now.hold)
    spots = _spots(was, now, found)
    for one, places in _compared(here, was, now, found):
        marked = dict.fromkeys(spots.get(place, place) for place in places)
        anchors = tuple(Anchor("procedure", now.name, each) for each in marked)
        yield replace(one, page=now.name, hold=now.hold, anchors=anchors)


def _spots(was: ProcedurePage, now: ProcedurePage, found: Matched) -> Mapping[str, str]:
    """The elements of the newer page at which the places of both pages are, by what `_placed` calls them."""
    old = {one.key: f"after:{found.behind(one.step.number - 1)}" for one in found.gone}
    old |= {before.key: f"step:{after.step.number}" for before, after in found.pairs}
    new = {one.key: f"step:{one.step.number}" for one in placed_steps(now)}
    gone = dict.fromkeys(blocks_by_part(was), "")
    blocks = {part: f"block:{block.letter}" for part, block in blocks_by_part(now).items()}
    return {PAGE: "", **gone, **old, **new, **blocks}


def _compared(
    at: At, was: ProcedurePage, now: ProcedurePage, found: Matched
) -> Iterator[tuple[Difference, Iterable[str]]]:
    """Every difference with what it marks: elements of the page, or places as `_placed` calls them."""
    standing_was, standing_now = tuple(_placed(was)), tuple(_placed(now))
    before, after = _warnings(standing_was), _warnings(standing_now)
    for name in dict.fromkeys((*after, *before)):
        low, high = before.get(name), after.get(name)
        here, own = at.down("warnings", name), (f"warning:{name}",)
        if low is None and high is not None:
            came = DifferenceKind.ADDED, DifferenceClass.TIGHTENED, "a warning came", None
            yield _told(here, high, *came, _all(high)), own
        elif high is None and low is not None:
            went = DifferenceKind.REMOVED, DifferenceClass.LOOSENED, "a warning went", _all(low)
            yield _told(here, low, *went, None), [where for where, one in standing_was if one.name == name]
        elif low is not None and high is not None:
            for one in _texts(here, low, high):
                yield one, own
    parts = set(blocks_by_part(was)) & set(blocks_by_part(now))
    yield from _standing(at, standing_was, standing_now, found, parts)


def _warnings(standing: Iterable[Standing]) -> dict[str, PageWarning]:
    """Every warning of a page by its name; the first wording of each."""
    found: dict[str, PageWarning] = {}
    for _, warning in standing:
        found.setdefault(warning.name, warning)
    return found


def warning_titles(page: ProcedurePage) -> dict[str, str]:
    """The titles of the warnings that a page gives anywhere, by the name of their hazard."""
    return {name: warning.title for name, warning in _warnings(_placed(page)).items()}


def _placed(page: ProcedurePage) -> Iterator[Standing]:
    """Every warning and where it stands: `page`, a part of it, or a step."""
    yield from ((PAGE, warning) for warning in page.warnings)
    for part, block in blocks_by_part(page).items():
        yield from ((part, warning) for warning in block.warnings)
    for one in placed_steps(page):
        yield from ((one.key, warning) for warning in one.step.warnings)


def _all(warning: PageWarning) -> str:
    parts = (warning.hazard, warning.consequence, warning.avoid)
    return f"{str(warning.signal).upper()}: {warning.title}. " + " ".join(part for part in parts if part)


def _texts(at: At, was: PageWarning, now: PageWarning) -> Iterator[Difference]:
    if was.signal != now.signal:
        low, high = _GRAVITY.index(str(was.signal)), _GRAVITY.index(str(now.signal))
        yield _told(
            at.down("signal"),
            now,
            DifferenceKind.CHANGED,
            DifferenceClass.TIGHTENED if high > low else DifferenceClass.LOOSENED,
            "the signal word says how grave it is",
            str(was.signal).upper(),
            str(now.signal).upper(),
        )
    for field in _TEXTS:
        before, after = getattr(was, field), getattr(now, field)
        change = compare_texts(before, after)
        if change is not None:
            yield _told(
                at.down(field), now, DifferenceKind.CHANGED, change.classed, change.why, before, after, field
            )


def _standing(
    at: At,
    was: Iterable[Standing],
    now: Iterable[Standing],
    found: Matched,
    parts: Collection[str],
) -> Iterator[tuple[Difference, Iterable[str]]]:
    """Warnings that both pages have, in more places, in fewer, or in others.

    A place that came or went together with its step or its block is not told again.
    """
    same = {before.key: after.key for before, after in found.pairs}
    kept_before, kept_after = {PAGE, *parts, *same}, {PAGE, *parts, *same.values()}
    before: dict[str, Counter[str]] = {}
    after: dict[str, Counter[str]] = {}
    for where, warning in was:
        if where in kept_before:
            before.setdefault(warning.name, Counter())[same.get(where, where)] += 1
    for where, warning in now:
        if where in kept_after:
            after.setdefault(warning.name, Counter())[where] += 1
    by_name = _warnings(now)
    for name in _warnings(was):
        if name not in by_name:
            continue
        low, high = before.get(name, Counter()), after.get(name, Counter())
        if low == high:
            continue
        fewer = high.total() - low.total()
        classed, why = DifferenceClass.CHANGED, "the warning stands elsewhere"
        if fewer < 0:
            classed, why = DifferenceClass.LOOSENED, "the warning is given in fewer places"
        elif fewer > 0:
            classed, why = DifferenceClass.TIGHTENED, "the warning is given in more places"
        told = _told(
            at.down("warnings", name, "standing"),
            by_name[name],
            DifferenceKind.MOVED,
            classed,
            why,
            _places(low - high) or "the same places, fewer of them",
            _places(high - low) or "the other places only",
        )
        yield told, [*(low - high), *(high - low)]


def _places(counted: Counter[str]) -> str:
    return ", ".join(where.replace(":", " ").replace("-", " ") for where in sorted(counted))


def _told(
    at: At,
    warning: PageWarning,
    kind: DifferenceKind,
    classed: DifferenceClass,
    why: str,
    was: str | None,
    now: str | None,
    field: str = "",
) -> Difference:
    told = make(at, kind, classed, why, was, now)
    return replace(told, subject=f"warning “{warning.title}”" + (f": {field}" if field else ""))
