"""What becomes of every position of a hold with any one item out of service: as before, with other steps, by
hand and with how many people, with a lower limit and what governs it, or not usable and why.

Every drive, control, restraint (stuck down, stuck up, missing) and the power is taken out in turn; the hold
is planned anew and every plan is simulated. With --item, only that item:

  procgen out-of-service SR-AFT --item lock-41=down
"""

from __future__ import annotations

import argparse

from procgen.cli.options import format_option, stations_option
from procgen.cli.registrations import registration_option

SUMMARY = "what each position is good for with any one item out of service"


def arguments(parser: argparse.ArgumentParser) -> None:
    """The command's own arguments."""
    parser.add_argument("hold", metavar="HOLD", help="the name of a hold, as in its description")
    parser.add_argument(
        "--item", metavar="ITEM", help="only this item (restraints: all ways, or one as lock-41=down)"
    )
    registration_option(parser)
    stations_option(parser)
    parser.add_argument("--unit", choices=("kg", "lb"), default="kg", help="print masses in (default: kg)")
    format_option(parser, "text", "json")


def run(options: argparse.Namespace) -> int:
    """Reckon and print; 1 when the hold's description cannot be read."""
    from procgen import report
    from procgen.cli.failures import read_failures
    from procgen.cli.inputs import hold_named
    from procgen.pipeline.matrix import all_failures, matrix_of

    loaded, hold = hold_named(options.stations, options.hold, options.registration)
    if hold is None:
        return 1
    out = all_failures(hold)
    if options.item is not None:
        asked = [one for one in out if one.item == options.item]
        out = tuple(asked) or read_failures(hold, [options.item])
    matrix = matrix_of(loaded.network, hold, out)
    root = str(options.stations)
    if options.format == "json":
        print(report.matrix_json(matrix, loaded.documents, root=root))
    else:
        print(report.matrix_text(matrix, hold, options.unit, loaded.documents, root=root))
    return 0
