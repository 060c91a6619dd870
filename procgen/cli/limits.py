"""What each position of a hold may carry of each unit type, what governs it, and every other candidate.

Limits are exact and rounded down when printed. The governing candidate comes first.
"""

from __future__ import annotations

import argparse

from procgen.cli.options import format_option, stations_option

SUMMARY = "what each position may carry, and what governs it"


def arguments(parser: argparse.ArgumentParser) -> None:
    """The command's own arguments."""
    parser.add_argument("hold", metavar="HOLD", help="the name of a hold, as in its description")
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
    table = position_table(hold, loaded.network.unit_types)
    if options.format == "json":
        print(report.limits_json(table, loaded.documents, root=str(options.stations)))
    else:
        print(report.limits_text(table, options.unit))
    return 0
