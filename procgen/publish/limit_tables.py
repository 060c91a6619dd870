"""The limit tables of a hold beside the one by position, in words: zones, missing restraints, packages."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from procgen.diagnostics import Place
from procgen.model.hold import Hold, Zone
from procgen.model.stated import SourceRef
from procgen.publish.reasons import Why, where
from procgen.publish.words import both, length, limit_text
from procgen.results.hold_tables import MissingRow
from procgen.results.limits import Candidate
from procgen.results.load_limits import Most
from procgen.results.packages import Longest, PackageTable
from procgen.results.page import HoldSite


@dataclass(frozen=True, slots=True)
class ZoneRow:
    """The most a zone takes: `stops` keep it from more, `own` names positions at their own limit, `way` is
    one way to load it so. `element` is what change bars call it.
    """

    element: str
    title: str
    where: str
    most: str
    stops: tuple[Why, ...]
    own: tuple[str, ...]
    way: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Left:
    """What is left of some positions and types with something out: `answer` in words, `limit` where there is
    one, `governs` and the reasons behind it, the governing one first.
    """

    places: tuple[tuple[str, tuple[str, ...]], ...]
    answer: str
    limit: str
    before: str
    reasons: tuple[str, ...]
    candidates: tuple[Why, ...]


@dataclass(frozen=True, slots=True)
class MissingGroup:
    """Restraints that are out, by their painted names, and everything that follows from it."""

    anchor: str
    titles: tuple[str, ...]
    left: tuple[Left, ...]


@dataclass(frozen=True, slots=True)
class PieceRow:
    """The longest piece of a width: its length in words, how it goes in, what stops a longer one."""

    width: str
    longest: str
    way: str
    why: str


@dataclass(frozen=True, slots=True)
class PieceTable:
    """The rows for pieces up to a height."""

    height: str
    rows: tuple[PieceRow, ...]


@dataclass(frozen=True, slots=True)
class DoorTable:
    """What goes through one door, by height; `facts` are what it was reckoned from."""

    name: str
    title: str
    heights: tuple[PieceTable, ...]
    facts: tuple[Why, ...]


def zone_rows(site: HoldSite, unit: str) -> tuple[ZoneRow, ...]:
    """A row for every zone, in the order of the description."""
    zones = site.hold.zones
    return tuple(_zone(site, name, zones[name], most, unit) for name, most in site.tables.zones.items())


def _zone(site: HoldSite, name: str, zone: Zone, most: Most, unit: str) -> ZoneRow:
    stretch = f"x {zone.x.low} to {zone.x.high}" if zone.x is not None else ""
    stops = tuple(
        Why(use.title, limit_text(use.limit), use.reckoning, use.sources, where(site, use.places))
        for use in most.stopped_by
    )
    way = tuple((position, both(mass, unit)) for position, mass in most.masses)
    named = "; ".join(part for part in (", ".join(zone.positions), stretch) if part)
    return ZoneRow(f"zones:{name}", zone.title, named, both(most.total, unit), stops, most.own_limits, way)


def missing_groups(site: HoldSite, unit: str) -> tuple[MissingGroup, ...]:
    """By what is out, in the order of the description: single restraints first, then pairs."""
    by_out: dict[tuple[str, ...], list[MissingRow]] = {}
    for row in sorted(site.tables.missing, key=lambda row: len(row.out)):
        by_out.setdefault(row.out, []).append(row)
    order = {name: number for number, name in enumerate(site.hold.restraints)}
    outs = sorted(by_out, key=lambda out: (len(out), [order.get(name, 0) for name in out]))
    return tuple(
        MissingGroup("-".join(("out", *out)), _titles(site.hold, out), _lefts(site, by_out[out], unit))
        for out in outs
    )


def _titles(hold: Hold, names: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(hold.restraints[name].title if name in hold.restraints else name for name in names)


def _lefts(site: HoldSite, rows: list[MissingRow], unit: str) -> tuple[Left, ...]:
    """Rows that say the same are one; the positions stand in the order of the description."""
    same: dict[Left, dict[str, list[str]]] = {}
    for row in rows:
        same.setdefault(_left(site, row, unit), {}).setdefault(row.position, []).append(row.unit_type)
    return tuple(
        Left(
            tuple((position, tuple(types)) for position, types in places.items()),
            left.answer,
            left.limit,
            left.before,
            left.reasons,
            left.candidates,
        )
        for left, places in same.items()
    )


def _left(site: HoldSite, row: MissingRow, unit: str) -> Left:
    before, cell = both(row.before, unit), row.cell
    if cell is None:
        return Left((), "as before", before, before, (), ())
    if cell.governing is None:
        return Left((), "not usable", "", before, cell.reasons, ())
    found = tuple(candidate_why(site, one, unit) for one in cell.candidates)
    return Left((), "lower", found[0].value, before, (), found)


def candidate_why(site: HoldSite, candidate: Candidate, unit: str) -> Why:
    """A candidate for a limit, with the lines its numbers stand in."""
    return Why(
        candidate.title,
        both(candidate.mass, unit),
        candidate.reckoning,
        candidate.sources,
        where(site, candidate.places),
    )


def door_tables(site: HoldSite) -> tuple[DoorTable, ...]:
    """A table for every door whose wall and cross-section are described."""
    return tuple(
        DoorTable(name, site.hold.doors[name].title, tuple(_heights(table)), tuple(_facts(site, name)))
        for name, table in site.tables.packages.items()
    )


def _heights(table: PackageTable) -> Iterator[PieceTable]:
    """Heights for which everything is the same are one: the highest of them says for all."""
    for _, rows in groupby(table.rows, key=lambda row: [(one.length, one.way, one.why) for one in row]):
        row = list(rows)[-1]
        yield PieceTable(length(row[0].height), tuple(_piece(one) for one in row))


def _piece(one: Longest) -> PieceRow:
    longest = length(one.length) if one.length is not None else ""
    return PieceRow(length(one.width), longest, _WAYS.get(one.way, one.way), one.why)


_WAYS = {
    "straight": "end first, straight in, not turned",
    "sideways": "with its long side along the hold, not turned",
    "turned": "end first, then turned to lie along the hold",
}


def _facts(site: HoldSite, name: str) -> Iterator[Why]:
    hold, door = site.hold, site.hold.doors[name]
    opening = f"{door.clear_width} wide, {door.clear_height} high; wall {door.wall} thick"
    yield Why("Door", opening, "", (), where(site, [door.place]))
    if hold.cross_section is not None:
        corners = ", ".join(f"{width} wide at {height}" for height, width in hold.cross_section.corners)
        yield _fact(site, "Cross-section", corners, hold.cross_section.source, hold.cross_section.place)
    span = hold.floor.rectangle.x
    yield Why("Length of the hold", f"x {span.low} to {span.high}", "", (), where(site, [hold.floor.place]))


def _fact(site: HoldSite, title: str, value: str, source: SourceRef | None, place: Place) -> Why:
    return Why(title, value, "", (source,) if source is not None else (), where(site, [place]))
