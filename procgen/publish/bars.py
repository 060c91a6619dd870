"""Change bars: what differs from the revision before, marked at the step, row or warning that it is about."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field, replace

from procgen.publish.words import capital, plain
from procgen.results.difference import Difference, DifferenceClass, DifferenceKind
from procgen.results.difference_places import HOLD, PROCEDURE, STATION, by_page
from procgen.results.difference_rows import size
from procgen.results.edition import Edition
from procgen.results.page import StationSite

_KINDS = {
    DifferenceKind.CHANGED: "changed",
    DifferenceKind.ADDED: "new",
    DifferenceKind.REMOVED: "removed here",
    DifferenceKind.MOVED: "moved",
    DifferenceKind.RENAMED: "renamed",
}
_STEP = re.compile(r": step “.*”(?=: |$)")
_ORDER = tuple(DifferenceClass)


@dataclass(frozen=True, slots=True)
class BarLine:
    """One difference behind a bar. `was` and `now` are empty where that side has nothing."""

    identity: str
    classed: DifferenceClass
    kind: DifferenceKind
    subject: str
    was: str
    now: str
    size: str
    why: str

    @property
    def paper(self) -> str:
        """The old value as paper shows it, where nobody can tap; empty where there was nothing."""
        match self.kind:
            case DifferenceKind.ADDED:
                return ""
            case DifferenceKind.REMOVED:
                return f"It said: {self.was}"
            case DifferenceKind.MOVED:
                return f"Before: {self.was}"
        return f"Was: {self.was}"

    @property
    def about(self) -> tuple[str, str]:
        """What has changed and what of it, as paper tells the changes at one place apart.

        The words of a step are left out where what it said follows: the bar stands at it.
        """
        subject = _STEP.sub("", self.subject) if self.paper else self.subject
        thing, _, aspect = subject.rpartition(": ")
        return thing, aspect


@dataclass(frozen=True, slots=True)
class Bar:
    """All that one bar tells, the gravest first.

    `since` is the number of the revision compared with; `changes` leads to the page of all differences.
    """

    lines: tuple[BarLine, ...]
    since: int
    changes: str

    @property
    def classed(self) -> DifferenceClass:
        """The gravest class, by which the bar is drawn."""
        return self.lines[0].classed

    @property
    def words(self) -> str:
        """What the bar says before it is opened: `Changed: loosened`, `3 changes: loosened, wording`."""
        kinds = list(dict.fromkeys(_KINDS[one.kind] for one in self.lines))
        classes = list(dict.fromkeys(str(one.classed) for one in self.lines))
        count = len(self.lines)
        head = kinds[0] if count == 1 else f"{count} changes"
        said = ", ".join(classes)
        return capital(head if head == said else f"{head}: {said}")

    @property
    def papers(self) -> tuple[str, ...]:
        """What paper says behind that, where nobody can tap: what changed alike once, with all its things."""
        alike: dict[tuple[str, str], list[str]] = {}
        for line in self.lines:
            thing, aspect = line.about
            alike.setdefault((aspect, line.paper), []).append(thing)
        return tuple(
            words
            for (aspect, paper), things in alike.items()
            for words in (self._about(things, aspect), paper)
            if words
        )

    def _about(self, things: Iterable[str], aspect: str) -> str:
        if len(self.lines) == 1:
            return ""
        named = ", ".join(dict.fromkeys(one for one in things if one))
        return capital(f"{named}: {aspect}" if named else aspect)


@dataclass(frozen=True, slots=True)
class Bars:
    """The bars of one page, by the elements they stand at.

    `changes` leads from the page to what changed, `since` is the number of the revision compared with.
    """

    found: Mapping[str, tuple[Difference, ...]] = field(default_factory=dict)
    changes: str = ""
    since: int = 0

    def at(self, *elements: str) -> Bar | None:
        """The bar at what goes by any of these names; None where nothing differs."""
        return self._bar(one for name in elements for one in self.found.get(name, ()))

    def at_each(self, kind: str, names: Iterable[object], behind: str = "") -> Bar | None:
        """The bar at several things of one kind that are shown as one."""
        return self.at(*(f"{kind}:{name}{behind}" for name in names))

    def rest(self, kind: str, names: Collection[object] = ()) -> Bar | None:
        """The bar for what is of a kind and goes by none of these names: it is not there any more."""
        shown = {str(name) for name in names}
        return self._bar(
            one
            for element, ones in self.found.items()
            for own, _, name in [element.partition(":")]
            if own == kind and name not in shown
            for one in ones
        )

    def other(self, *kinds: str) -> Bar | None:
        """The bar at the head of a page for what has no place of its own there: all but these kinds."""
        return self._bar(
            one
            for element, ones in self.found.items()
            if element.partition(":")[0] not in kinds
            for one in ones
        )

    def only(self, *kinds: str) -> Bars:
        """Those at elements of these kinds."""
        return self._kept({name for name in self.found if name.partition(":")[0] in kinds})

    def without(self, *kinds: str) -> Bars:
        """Those at elements of any other kind."""
        return self._kept({name for name in self.found if name.partition(":")[0] not in kinds})

    def joined(self, more: Mapping[str, tuple[Difference, ...]]) -> Bars:
        """These and others, of kinds that are not among them."""
        return replace(self, found={**self.found, **more})

    def _kept(self, names: Collection[str]) -> Bars:
        return replace(self, found={name: ones for name, ones in self.found.items() if name in names})

    def _bar(self, differences: Iterable[Difference]) -> Bar | None:
        once = {one.identity: one for one in differences}
        ordered = sorted(once.values(), key=lambda one: _ORDER.index(one.classed))
        return Bar(tuple(_line(one) for one in ordered), self.since, self.changes) if ordered else None


def _line(one: Difference) -> BarLine:
    return BarLine(
        identity=one.identity,
        classed=one.classed,
        kind=one.kind,
        subject=plain(one.subject),
        was=plain(one.was.text) if one.was else "",
        now=plain(one.now.text) if one.now else "",
        size=size(one.number) if one.number else "",
        why=one.why,
    )


@dataclass(frozen=True, slots=True)
class EditionBars:
    """The bars of all pages of an edition. What no page of it shows stands on the station's first page."""

    found: Mapping[tuple[str, str], Mapping[str, tuple[Difference, ...]]]
    since: int

    def station(self) -> Bars:
        """Those of the station's first page."""
        return self._bars(STATION, STATION, 0)

    def hold(self, name: str) -> Bars:
        """Those of the pages of a hold."""
        return self._bars(HOLD, name, 1)

    def procedure(self, name: str) -> Bars:
        """Those of the pages of a procedure."""
        return self._bars(PROCEDURE, name, 1)

    def _bars(self, page: str, name: str, depth: int) -> Bars:
        return Bars(self.found.get((page, name), {}), f"{'../' * depth}changes.html", self.since)


def bars_of(edition: Edition) -> EditionBars:
    """The bars of an edition, against the revision that its differences are from."""
    found = dict(by_page(edition.differences))
    pages = _pages(edition.site)
    strays = tuple(
        one
        for one in edition.differences
        if not any((anchor.page, anchor.name) in pages for anchor in one.anchors)
    )
    if strays:
        front = dict(found.get((STATION, STATION), {}))
        front[""] = (*front.get("", ()), *strays)
        found[STATION, STATION] = front
    return EditionBars(found, edition.against)


def _pages(site: StationSite) -> Collection[tuple[str, str]]:
    holds = [(HOLD, hold.hold.name) for hold in site.holds]
    procedures = [(PROCEDURE, page.name) for hold in site.holds for page in hold.pages]
    return {(STATION, STATION), *holds, *procedures}
