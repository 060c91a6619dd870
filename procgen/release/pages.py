"""The pages of a manual with the hash of what each shows: an unchanged page can be told from a new one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import PurePosixPath
from typing import Any

from procgen.model.effectivity import Effectivity, applies_to
from procgen.model.station import NO_REVISION, Station
from procgen.release.codec import LineTable, canonical
from procgen.release.encoding import encode
from procgen.release.record import sha256
from procgen.results.edition import EffectivePage
from procgen.results.page import (
    AircraftSite,
    HoldSite,
    OutOfServiceGuide,
    ProcedurePage,
    RecoveryGuide,
    StationSite,
)

_BY_PAGE = ("procedures/", "cards/", "recovery/")
"""The folders whose files are called like the procedure that they tell of."""


def effective_pages(site: StationSite) -> tuple[EffectivePage, ...]:
    """Every page of a station's manual, in its order. A page's hash does not depend on its revision."""
    return tuple(_pages(site))


def _pages(site: StationSite) -> Iterator[EffectivePage]:
    yield EffectivePage("index.html", f"{site.station.code}: station", _front(site))
    for hold in site.holds:
        written = {page.name: page.effectivity for page in hold.pages}
        for page in _of_hold(site, hold):
            own = written.get(PurePosixPath(page.file).stem) if page.file.startswith(_BY_PAGE) else None
            yield replace(page, applies=_marks(hold, own))


def _marks(hold: HoldSite, own: Effectivity | None) -> str:
    """The registrations a page is for, by its hold and by its own; empty where neither tells any apart."""
    stated, aircraft = (hold.hold.effectivity, own), hold.aircraft_type
    if stated == (None, None) or aircraft is None:
        return ""
    covered = [set(applies_to(one, aircraft.registrations)) for one in stated]
    return ", ".join(mark for mark in aircraft.registrations if all(mark in some for some in covered))


def _of_hold(site: StationSite, hold: HoldSite) -> Iterator[EffectivePage]:
    name = hold.hold.name
    bare = replace(hold, pages=(), diagrams={}, recoveries=(), out_of_service=None)
    guides = {guide.name: _hash(guide, RecoveryGuide) for guide in hold.recoveries}
    digest = _hash(bare, HoldSite)
    yield EffectivePage(f"holds/{name}.html", f"{name}: hold and limits", digest)
    yield EffectivePage(f"limits/{name}.html", f"{name}: limits in full", digest)
    yield EffectivePage(f"loads/{name}.html", f"{name}: pieces, straps, crew, wind, times", digest)
    matrix = "" if hold.out_of_service is None else _hash(hold.out_of_service, OutOfServiceGuide)
    if matrix:
        whole = sha256(f"{digest}\n{matrix}\n{_contacts(site)}")
        yield EffectivePage(f"out-of-service/{name}.html", f"{name}: an item out of service", whole)
    for page in hold.pages:
        shown = sha256(
            "\n".join(
                [
                    digest,
                    _hash(page, ProcedurePage),
                    _hash(hold.diagrams.get(page.name, {}), dict[int, str]),
                    _contacts(site),
                ]
            )
        )
        yield EffectivePage(f"procedures/{page.name}.html", page.title, shown)
        guide = guides.get(page.name)
        whole = shown if guide is None else sha256(f"{shown}\n{guide}")
        on_card = sha256(f"{whole}\n{matrix}") if matrix else whole
        yield EffectivePage(f"cards/{page.name}.html", f"{page.title}: phone card", on_card)
        if guide is not None:
            yield EffectivePage(f"recovery/{page.name}.html", f"{page.title}: half way", whole)


def _front(site: StationSite) -> str:
    """The hash of a station's own page: what the station says of itself, its holds and their order."""
    listed = [
        (hold.hold.name, hold.hold.title, hold.aircraft, _marks(hold, None), hold.why_no_page)
        for hold in site.holds
    ]
    shown = [
        (page.name, page.title, page.generated, _marks(hold, page.effectivity))
        for hold in site.holds
        for page in hold.pages
    ]
    station = replace(site.station, revision=NO_REVISION, procedures=())
    own = [_hash(station, Station), _hash(site.aircraft, tuple[AircraftSite, ...])]
    return sha256("\n".join([*own, repr((listed, shown))]))


def _contacts(site: StationSite) -> str:
    return repr([(one.role, one.how) for one in site.station.contacts])


def _hash(value: Any, hint: Any) -> str:
    table = LineTable()
    return sha256(canonical([encode(value, hint, table), [*table.lines]]))


def with_since(history: Sequence[tuple[EffectivePage, ...]]) -> list[tuple[EffectivePage, ...]]:
    """The pages of each release in order, each page with the revision since which it has stood unchanged."""
    found: list[tuple[EffectivePage, ...]] = []
    before: dict[str, EffectivePage] = {}
    for number, pages in enumerate(history, start=1):
        dated = tuple(replace(page, since=_since(page, before.get(page.file), number)) for page in pages)
        before = {page.file: page for page in dated}
        found.append(dated)
    return found


def _since(page: EffectivePage, before: EffectivePage | None, number: int) -> int:
    return before.since if before is not None and before.sha256 == page.sha256 else number
