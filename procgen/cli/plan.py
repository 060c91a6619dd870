"""Derive the steps of one operation of a hold, in the form of a procedure written by hand.

The JSON and YAML that this prints can be saved as a procedure of a station, or checked at once:

  procgen plan SR-AFT --operation loading --format yaml > procedure.yaml
  procgen check --procedure procedure.yaml

Units that stay aboard are named too; the plan moves none of them that may stay. A position's unit type can
be given with it, else the first type of the fleet that fits is taken:

  procgen plan MX-AFT --operation loading --positions 33P=PMC,33L=AKE --aboard 35L=AKE,35R

With items out of service the steps do without them, and the limits that follow are printed with them; where
there is no way without them, it says why:

  procgen plan MX-AFT --operation loading --positions 33L 33R --out-of-service power
"""

from __future__ import annotations

import argparse

from procgen.cli.options import format_option, stations_option
from procgen.cli.registrations import registration_option

SUMMARY = "derive the steps of one operation, or say why there are none"


def arguments(parser: argparse.ArgumentParser) -> None:
    """The command's own arguments."""
    parser.add_argument("hold", metavar="HOLD", help="the name of a hold, as in its description")
    parser.add_argument("--operation", choices=("loading", "unloading"), required=True)
    parser.add_argument(
        "--positions",
        nargs="+",
        metavar="POSITION[=TYPE]",
        help="the positions to load or unload (default: all that nothing aboard takes), as 41 42 or 41,42;"
        " with unit types as 41=AKH,42=PKC",
    )
    parser.add_argument(
        "--aboard",
        nargs="+",
        default=[],
        metavar="POSITION[=TYPE]",
        help="the positions whose units stay aboard, as 44 or 44=AKH; one that stands in the way comes out"
        " and is put back",
    )
    parser.add_argument(
        "--out-of-service",
        nargs="+",
        default=[],
        metavar="ITEM",
        help="what does not work: drives, controls, power; restraints with how they failed, as lock-41=down"
        " (cannot be raised), lock-41=up (cannot be lowered) or lock-41=missing",
    )
    registration_option(parser)
    stations_option(parser)
    format_option(parser, "text", "json", "yaml")


def run(options: argparse.Namespace) -> int:
    """Plan and print; 1 when there is no plan or the hold's description cannot be read."""
    from procgen import report
    from procgen.cli.asked import asked_units, told_apart
    from procgen.cli.failures import read_failures
    from procgen.cli.inputs import hold_named
    from procgen.model.words import Operation
    from procgen.pipeline.checking import derive
    from procgen.pipeline.failing import left_of_all
    from procgen.results.plan import NoPlan

    loaded, hold = hold_named(options.stations, options.hold, options.registration)
    if hold is None:
        return 1
    units, aboard = asked_units(hold, loaded.network.unit_types, options.positions, options.aboard)
    out = read_failures(hold, options.out_of_service)
    outcome = derive(loaded.network, hold, Operation(options.operation), units, aboard, out)
    if isinstance(outcome, NoPlan):
        no_plan = report.no_plan_json if options.format == "json" else report.no_plan_text
        print(no_plan(outcome, loaded.documents, root=str(options.stations)))
        if options.format == "text":
            for one in out:
                command = f"procgen out-of-service {hold.name} --item {one.item}={one.failure}"
                print(f"What each position is still good for: {command} --stations {options.stations}")
        return 1
    if options.positions or options.aboard:
        outcome = told_apart(outcome)
    if options.format == "text":
        print(report.plan_text(outcome, hold, left_of_all(hold, loaded.network.unit_types, outcome)))
    elif options.format == "json":
        print(report.plan_json(outcome))
    else:
        print(report.plan_yaml(outcome), end="")
    return 0
