"""What a hold carries, and why: the most in each position, or with --section one of the other tables.

  procgen limits SR-AFT                                   what each position may carry
  procgen limits SR-AFT --section zones                   the most that each zone takes
  procgen limits SR-AFT --section missing                 with restraints out of service
  procgen limits SR-AFT --section doors                   what goes through each door
  procgen limits SR-AFT --section doors --footprint "1.8 m x 0.6 m" --height "0.9 m"
  procgen limits SR-AFT --section floor                   what the floor carries
  procgen limits SR-AFT --section floor --mass "600 kg" --footprint "1.2 m x 0.8 m" --supports 4 --face "10 cm x 10 cm"
  procgen limits SR-AFT --section tie-down --mass "450 kg" --strap "8.9 kN" --angles 45/30
  procgen limits MR-FWD --section hand --mass "700 kg"    the crew that moves it
  procgen limits SR-AFT --section stability               the nose gear share, this hold alone
  procgen limits SR-AFT --section wind                    wind limits, here and at each station
  procgen limits BK-AFT --section times                   how long loading and unloading take
  procgen limits SR-AFT --section notes                   dangerous goods, live loads

Limits are exact and rounded down when printed, demands rounded up. What governs comes first; --why prints the
reckoning, the other candidates and the places of the numbers with each, and --format json always has them.
"""  # noqa: E501

from __future__ import annotations

import argparse
from collections.abc import Mapping
from typing import TYPE_CHECKING

from procgen.cli.options import format_option, stations_option
from procgen.cli.registrations import registration_option
from procgen.diagnostics import ProcgenError

if TYPE_CHECKING:
    from procgen.load import Loaded
    from procgen.model.hold import Hold
    from procgen.model.station import Station
    from procgen.results.figures import FigureTable

SUMMARY = "what each position, floor, door, strap or crew may carry, and what governs it"

_PIECE = frozenset({"mass", "footprint", "supports", "face", "tare", "board_thickness"})
_TAKES: Mapping[str, frozenset[str]] = {
    "positions": frozenset({"unit"}),
    "zones": frozenset({"unit"}),
    "missing": frozenset({"unit"}),
    "doors": frozenset({"unit", "footprint", "height"}),
    "floor": _PIECE,
    "tie-down": frozenset({"mass", "strap", "angles"}),
    "hand": frozenset({"mass"}),
    "stability": frozenset(),
    "wind": frozenset({"station"}),
    "times": frozenset({"station"}),
    "notes": frozenset(),
}
"""The sections, and the options that each takes besides the common ones."""


def arguments(parser: argparse.ArgumentParser) -> None:
    """The command's own arguments."""
    parser.add_argument("hold", metavar="HOLD", help="the name of a hold, as in its description")
    parser.add_argument(
        "--section",
        choices=tuple(_TAKES),
        default="positions",
        help="which table to print (default: positions)",
    )
    registration_option(parser)
    stations_option(parser)
    parser.add_argument("--unit", choices=("kg", "lb"), help="print masses of positions in (default: kg)")
    parser.add_argument("--why", action="store_true", help="print the why of each figure too")
    format_option(parser, "text", "json")
    given = parser.add_argument_group("a given piece, strap or station, for the sections that take one")
    given.add_argument("--mass", action="append", metavar="MASS", help="its mass, as in “600 kg”")
    given.add_argument(
        "--footprint", metavar="SIDES", help="length along the hold x width, as in “1.2 m x 0.8 m”"
    )
    given.add_argument("--height", metavar="LENGTH", help="its height, through a door")
    given.add_argument("--supports", type=int, metavar="N", help="how many feet or skids share its mass")
    given.add_argument("--face", metavar="SIDES", help="the sides of one support, as in “10 cm x 10 cm”")
    given.add_argument("--tare", metavar="MASS", help="what lies under and over it: pallet, boards, straps")
    given.add_argument("--board-thickness", metavar="LENGTH", help="of a board under it, or under each foot")
    given.add_argument("--strap", metavar="STRAP", help="a strap of the hold, or a rating, as in “8.9 kN”")
    given.add_argument(
        "--angles",
        action="append",
        metavar="V/H",
        help="a strap's angles to the floor and to the x axis in degrees, as in 45/30",
    )
    given.add_argument("--station", metavar="CODE", help="one station (default: all that work the hold)")


def run(options: argparse.Namespace) -> int:
    """Compute and print; 1 when the hold's description cannot be read, or a given piece is not allowed."""
    from procgen import report
    from procgen.cli.inputs import hold_named
    from procgen.limits import position_table

    _refuse_strays(options)
    loaded, hold = hold_named(options.stations, options.hold, options.registration)
    if hold is None:
        return 1
    root, as_json = str(options.stations), options.format == "json"
    if options.section == "positions":
        table = position_table(hold, loaded.network.unit_types)
        if as_json:
            print(report.limits_json(table, loaded.documents, root=root))
        else:
            print(report.limits_text(table, options.unit or "kg"))
        return 0
    if options.section in ("zones", "missing") or (options.section == "doors" and not _asks(options)):
        print(_section(options, loaded, hold))
        return 0
    tables = _tables(options, loaded, hold)
    if as_json:
        print(report.figures_json(hold.name, tables, loaded.documents, root=root))
    else:
        head = f"{hold.name}: {options.section.replace('-', ' ')} (limits rounded down, demands up)"
        print(report.figures_text(head, tables, loaded.documents, root=root, why=options.why))
    return 1 if _asks(options) and not all(table.answered for table in tables) else 0


def _refuse_strays(options: argparse.Namespace) -> None:
    """Raise `ProcgenError` where an option is given that the section has no use for."""
    every = frozenset[str]().union(*_TAKES.values())
    strays = sorted(
        name for name in every - _TAKES[options.section] if getattr(options, name) not in (None, [])
    )
    if strays:
        takers = [section for section, takes in _TAKES.items() if strays[0] in takes]
        raise ProcgenError(
            f"--section {options.section} has no use for --{strays[0].replace('_', '-')}: it belongs to"
            f" --section {' or '.join(takers)}"
        )


def _asks(options: argparse.Namespace) -> bool:
    """Whether something is given whose answer may be no."""
    return any(getattr(options, name) is not None for name in (*_PIECE, "height", "strap", "angles"))


def _section(options: argparse.Namespace, loaded: Loaded, hold: Hold) -> str:
    """One of the tables that have a form of their own, printed as it was asked for."""
    from procgen.limits.missing import missing_table
    from procgen.limits.packages import door_ways, package_tables
    from procgen.limits.zone_most import zone_most
    from procgen.report import limit_sections as sections

    as_json, types = options.format == "json", loaded.network.unit_types
    documents, root, unit = loaded.documents, str(options.stations), options.unit or "kg"
    if options.section == "zones":
        zones = zone_most(hold, types)
        if as_json:
            return sections.zones_json(hold.name, zones, documents, root=root)
        return sections.zones_text(hold.name, zones, unit)
    if options.section == "missing":
        missing = missing_table(hold, types, [frozenset(pair) for pair in hold.out_together])
        if as_json:
            return sections.missing_json(missing, documents, root=root)
        return sections.missing_text(missing, unit)
    if as_json:
        return sections.packages_json(hold.name, door_ways(hold), documents, root=root)
    return sections.packages_text(hold.name, package_tables(hold))


def _tables(options: argparse.Namespace, loaded: Loaded, hold: Hold) -> tuple[FigureTable, ...]:
    """The tables of figures of a section, of what is given where something is."""
    from procgen.cli import pieces
    from procgen.limits.wind_tables import notes_table, wind_table
    from procgen.pipeline import figure_sections as sections
    from procgen.units import Dimension

    match options.section:
        case "doors":
            return (_through_doors(options, hold),)
        case "floor":
            board = options.board_thickness
            thick = board and pieces.above_zero(board, Dimension.LENGTH, "--board-thickness")
            return sections.floor_section(hold, pieces.piece(options), thick)
        case "tie-down":
            strap = pieces.strap(hold, options.strap) if options.strap is not None else None
            angles = pieces.angles(options.angles or ())
            return (sections.straps_table(hold, pieces.masses(options.mass), strap, angles),)
        case "hand":
            return sections.crew_tables(hold, loaded.network.unit_types, pieces.masses(options.mass))
        case "stability":
            return sections.stability_tables(loaded.network, hold)
        case "wind":
            return (wind_table(hold, _stations(options, loaded, hold)),)
        case "times":
            return sections.times_tables(loaded.network, hold, _stations(options, loaded, hold))
        case _:
            return (notes_table(hold),)


def _through_doors(options: argparse.Namespace, hold: Hold) -> FigureTable:
    from procgen.cli import pieces
    from procgen.limits.door_tables import through_doors_table
    from procgen.units import Dimension

    if options.footprint is None or options.height is None:
        raise ProcgenError(
            "a piece through a door needs both: --footprint, as in “1.8 m x 0.6 m”, and --height, as in"
            " “0.9 m”"
        )
    sides = pieces.sides(options.footprint, "--footprint")
    return through_doors_table(hold, *sides, pieces.above_zero(options.height, Dimension.LENGTH, "--height"))


def _stations(options: argparse.Namespace, loaded: Loaded, hold: Hold) -> list[Station]:
    """The stations that work a hold, or the one that is named."""
    working = {code: one for code, one in loaded.network.stations.items() if hold.name in one.holds}
    if options.station is None:
        return list(working.values())
    if options.station not in working:
        raise ProcgenError(
            f"no station {options.station} works {hold.name} (stations: {', '.join(working) or 'none'})"
        )
    return [working[options.station]]
