"""Which aircraft a page of a hold is for, and where the others find theirs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from procgen.model.effectivity import applies_to
from procgen.results.page import HoldSite, ProcedurePage, StationSite

_FEW = 4
"""How many registrations the line at the head of a card can name."""


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """Aircraft that a page is not for, the name of the hold that they have instead, and its page."""

    registrations: tuple[str, ...]
    hold: str
    href: str


@dataclass(frozen=True, slots=True)
class Applies:
    """What a page says of the aircraft it is for.

    `words` say it in one sentence, `short` in a few words where it is not for every aircraft of the type.
    `registrations` are those it is for, `of_type` all of its aircraft type,
    `others` where the rest find their page; none where this station does not work the hold as they have it.
    """

    words: str
    registrations: tuple[str, ...]
    of_type: tuple[str, ...]
    others: tuple[Elsewhere, ...] = ()
    left_out: tuple[str, ...] = ()
    short: str = ""


@dataclass(frozen=True, slots=True)
class Choice:
    """One aircraft to pick on a station's page: its configuration in words and its holds there."""

    registration: str
    aircraft: str
    configuration: str
    holds: tuple[str, ...]


def told_apart(site: StationSite) -> bool:
    """Whether any of a station's aircraft are known by registration."""
    return any(_registered(hold) for hold in site.holds)


def applies(
    site: StationSite, hold: HoldSite, kind: str, page: ProcedurePage | None = None
) -> Applies | None:
    """What a page in the folder `kind` says; None where no aircraft of the station has a registration."""
    if not told_apart(site):
        return None
    of_type = _registered(hold)
    mine = for_page(hold, page)
    if mine == of_type:
        marks = f": {', '.join(mine)}" if mine else ""
        return Applies(f"Applies to every {hold.aircraft}{marks}.", mine, of_type)
    others = tuple(_others(site, hold, kind, page))
    found = {mark for other in others for mark in other.registrations}
    left_out = tuple(mark for mark in of_type if mark not in mine and mark not in found)
    rest = [mark for mark in of_type if mark not in mine]
    words = f"Applies to {', '.join(mine)} only, not to {', '.join(rest)}."
    short = f"{', '.join(mine)} only" if len(mine) <= _FEW else f"{len(mine)} of {len(of_type)} aircraft only"
    return Applies(words, mine, of_type, others, left_out, short)


def choices(site: StationSite) -> tuple[Choice, ...]:
    """Every aircraft that can be picked at a station, by type, in the fleet's order."""
    found: dict[str, Choice] = {}
    for hold in site.holds:
        aircraft = hold.aircraft_type
        for mark, one in aircraft.registrations.items() if aircraft is not None else ():
            title = aircraft.configurations[one.configuration].title if aircraft is not None else ""
            holds = tuple(each.hold.name for each in site.holds if mark in _mine(each))
            found.setdefault(mark, Choice(mark, hold.aircraft, title, holds))
    return tuple(found.values())


def for_page(hold: HoldSite, page: ProcedurePage | None = None) -> tuple[str, ...]:
    """The registrations a page is for: of those that have the hold, those that it was written for."""
    mine = _mine(hold)
    if page is None or page.effectivity is None or hold.aircraft_type is None:
        return mine
    written_for = applies_to(page.effectivity, hold.aircraft_type.registrations)
    return tuple(mark for mark in mine if mark in written_for)


def narrowed(hold: HoldSite) -> Mapping[str, tuple[str, ...]]:
    """The pages of a hold that are not for every aircraft that has it, with those that they are for."""
    found = {page.name: for_page(hold, page) for page in hold.pages}
    return {name: marks for name, marks in found.items() if marks != _mine(hold)}


def marks_of(hold: HoldSite) -> str:
    """The aircraft that a hold is for, in a word or a few: for lists."""
    mine = _mine(hold)
    return ", ".join(mine) if mine != _registered(hold) else f"every {hold.aircraft}"


def _registered(hold: HoldSite) -> tuple[str, ...]:
    return () if hold.aircraft_type is None else tuple(hold.aircraft_type.registrations)


def _mine(hold: HoldSite) -> tuple[str, ...]:
    if hold.aircraft_type is None:
        return ()
    return applies_to(hold.hold.effectivity, hold.aircraft_type.registrations)


def _others(site: StationSite, hold: HoldSite, kind: str, page: ProcedurePage | None) -> Iterator[Elsewhere]:
    rest = tuple(mark for mark in _mine(hold) if mark not in for_page(hold, page))
    if rest and page is not None:
        derived = next((one for one in hold.pages if one.generated and one.operation is page.operation), None)
        yield Elsewhere(rest, derived.title if derived else hold.hold.name, _href(hold, kind, derived))
    for other in site.holds:
        if other is not hold and other.hold.family == hold.hold.family:
            yield Elsewhere(_mine(other), other.hold.name, _href(other, kind, page))


def _href(other: HoldSite, kind: str, page: ProcedurePage | None) -> str:
    """The same page of another variant, from a folder of the station; else the page of its hold."""
    name = other.hold.name
    if page is None:
        return f"../{kind}/{name}.html"
    same = [
        one for one in other.pages if one.generated and page.generated and one.operation is page.operation
    ]
    found = kind != "recovery" or any(guide.name == one.name for one in same for guide in other.recoveries)
    return f"../{kind}/{same[0].name}.html" if same and found else f"../holds/{name}.html"
