"""What each position of a hold may carry of each unit type, what governs it, and every other candidate; with
--section, the most each zone takes, what is left with restraints out of service, what goes through a door.

Limits are exact and rounded down when printed. The governing candidate comes first.
"""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from procgen.cli.options import format_option, stations_option

if TYPE_CHECKING:
    from procgen.load import Loaded
    from procgen.model.hold import Hold

SUMMARY = "what each position may carry, and what governs it"


def arguments(parser: argparse.ArgumentParser) -> None:
    """The command's own arguments."""
    parser.add_argument("hold", metavar="HOLD", help="the name of a hold, as in its description")
    parser.add_argument(
        "--section",
        choices=("positions", "zones", "missing", "doors"),
        default="positions",
        help="which table to print (default: positions)",
    )
    stations_option(parser)
    parser.add_argument("--unit", choices=("kg", "lb"), default="kg", help="print masses in (default: kg)")
    format_option(parser, "text", "json")


def run(options: argparse.Namespace) -> int:
    """Compute and print; 1 when the hold's description cannot be read."""
    from procgen import report
    from procgen.cli.inputs import hold_named
    from procgen.limits import position_table

    loaded, hold = hold_named(options.stations, options.hold)
    if hold is None:
        return 1
    if options.section != "positions":
        print(_section(options, loaded, hold))
        return 0
    table = position_table(hold, loaded.network.unit_types)
    if options.format == "json":
        print(report.limits_json(table, loaded.documents, root=str(options.stations)))
    else:
        print(report.limits_text(table, options.unit))
    return 0


def _section(options: argparse.Namespace, loaded: Loaded, hold: Hold) -> str:
    """One of the other tables, printed as it was asked for."""
    from procgen.limits.missing import missing_table
    from procgen.limits.packages import package_tables
    from procgen.limits.zone_most import zone_most
    from procgen.report import limit_sections as sections

    as_json, types = options.format == "json", loaded.network.unit_types
    if options.section == "zones":
        zones = zone_most(hold, types)
        if as_json:
            return sections.zones_json(hold.name, zones, loaded.documents, root=str(options.stations))
        return sections.zones_text(hold.name, zones, options.unit)
    if options.section == "missing":
        missing = missing_table(hold, types, [frozenset(pair) for pair in hold.out_together])
        return sections.missing_json(missing) if as_json else sections.missing_text(missing, options.unit)
    doors = package_tables(hold)
    return sections.packages_json(hold.name, doors) if as_json else sections.packages_text(hold.name, doors)
