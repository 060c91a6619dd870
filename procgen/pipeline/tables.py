"""The limit tables of a hold's pages, and the lines that their numbers stand in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, fields, is_dataclass
from functools import lru_cache

from procgen import draw
from procgen.diagnostics import NOWHERE, Place
from procgen.limits.floor_tables import floor_tables
from procgen.limits.hand_tables import crew_table, hand_moves_table, pulling_table
from procgen.limits.missing import missing_table
from procgen.limits.packages import package_tables
from procgen.limits.tie_down_tables import tie_down_table
from procgen.limits.wind_tables import notes_table, wind_table
from procgen.limits.zone_most import zone_most
from procgen.limits.zones import placed
from procgen.model.hold import Hold
from procgen.model.station import Network, Station
from procgen.model.step import Procedure
from procgen.model.unit import UnitType
from procgen.pipeline.timing import times
from procgen.results.figures import FigureTable
from procgen.results.hold_tables import HoldTables, MissingRow, place_key
from procgen.results.limits import LimitTable
from procgen.results.load_limits import Placed
from procgen.results.missing import MissingCell
from procgen.results.packages import PackageTable
from procgen.source import Document


def hold_tables(
    network: Network, station: Station, hold: Hold, table: LimitTable, procedures: Sequence[Procedure]
) -> HoldTables:
    """Every limit table of a hold but the one by position (`table`), and the charts of its limits.

    `procedures` are those that the station works in it: how long they take is among the tables.
    """
    unit_types = network.unit_types
    missing = missing_table(hold, unit_types, [frozenset(pair) for pair in hold.out_together])
    packages = _packages(hold)
    own = tuple(_own(hold, unit_types, table))
    return HoldTables(
        zones=zone_most(hold, unit_types),
        missing=tuple(row for cell in missing.cells for row in _row(cell)),
        packages=packages,
        figures=tuple(_figures(network, station, hold, procedures)),
        charts=draw.limit_charts(hold, unit_types, network.contours, own, packages, station.mass_unit),
    )


def _figures(
    network: Network, station: Station, hold: Hold, procedures: Sequence[Procedure]
) -> Iterator[FigureTable]:
    yield from floor_tables(hold)
    yield tie_down_table(hold)
    yield hand_moves_table(hold, network.unit_types)
    yield crew_table(hold)
    pulling = pulling_table(hold)
    if pulling is not None:
        yield pulling
    # The doors as the hold has them: what the station tightens has rows of its own.
    yield wind_table(network.holds[hold.name], [station])
    yield notes_table(hold)
    for procedure in procedures:
        yield times(hold, network.unit_types, procedure, station)


def _own(hold: Hold, unit_types: Mapping[str, UnitType], table: LimitTable) -> Iterator[Placed]:
    """Each position with the heaviest unit that it may carry, at its limit; of equal types the first."""
    for position in hold.positions:
        limits = [
            (cell.limit, cell.unit_type)
            for cell in table.cells
            if cell.position == position and cell.limit is not None
        ]
        if limits:
            mass, code = max(limits, key=lambda one: one[0])
            yield placed(hold, unit_types[code], position, mass)


def lines_of(value: object, documents: Mapping[str, Document]) -> Mapping[str, int]:
    """The line of every place that a value carries, by `place_key`; only those that a document knows."""
    known = {place for place in _places(value) if place != NOWHERE and place.file in documents}
    return {
        place_key(place): documents[place.file].span(place).line
        for place in sorted(known, key=lambda place: (place_key(place), str(place.span)))
    }


def _places(value: object) -> Iterator[Place]:
    if isinstance(value, Place):
        yield value
    elif is_dataclass(value):
        for one in fields(value):
            yield from _places(getattr(value, one.name))
    elif isinstance(value, Mapping):
        for held in value.values():
            yield from _places(held)
    elif isinstance(value, tuple | list | frozenset):
        for held in value:
            yield from _places(held)


def _row(cell: MissingCell) -> Iterator[MissingRow]:
    before = cell.whole.limit
    if before is not None:
        changed = cell.cell if not cell.usable or cell.lowered else None
        yield MissingRow(cell.out, cell.whole.position, cell.whole.unit_type, before, changed)


@dataclass(frozen=True, slots=True)
class _Of:
    """A hold that no comparison looks at: the words beside it say all that counts of it."""

    hold: Hold = field(compare=False)


def _packages(hold: Hold) -> Mapping[str, PackageTable]:
    """What goes through the doors: reckoned once for the same doors and cross-section, however many
    stations work the hold, because it takes seconds.
    """
    doors = [(d.name, d.x, d.clear_width, d.clear_height, d.wall) for d in hold.doors.values()]
    return _packages_by(repr((doors, hold.floor.rectangle.x, hold.cross_section)), _Of(hold))


@lru_cache(maxsize=64)
def _packages_by(words: str, of: _Of) -> Mapping[str, PackageTable]:
    return package_tables(of.hold)
