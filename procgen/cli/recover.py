"""What to do when something goes wrong half way: the power fails, the drive under the unit fails, the unit
jams, or somebody has to go in. For one step of a derived procedure (numbered as procgen plan prints it) the
hold is taken as it stands there: made safe first, then led to a safe, closed hold by steps that are
simulated; or the reasons why there are none, and whom to call.

  procgen recover SR-AFT --operation loading --step 18 --mishap drive
"""

from __future__ import annotations

import argparse

from procgen.cli.options import format_option, stations_option
from procgen.cli.registrations import registration_option

SUMMARY = "what to do when something goes wrong at a step, or whom to call"
MISHAPS = ("power", "drive", "jammed", "person")


def arguments(parser: argparse.ArgumentParser) -> None:
    """The command's own arguments."""
    parser.add_argument("hold", metavar="HOLD", help="the name of a hold, as in its description")
    parser.add_argument("--operation", choices=("loading", "unloading"), required=True)
    parser.add_argument(
        "--step",
        type=int,
        required=True,
        metavar="N",
        help="the number of the step, as procgen plan prints it",
    )
    parser.add_argument("--mishap", choices=MISHAPS, help="only this mishap (default: all that can be there)")
    parser.add_argument(
        "--positions",
        nargs="+",
        metavar="POSITION[=TYPE]",
        help="the positions to load or unload, as for procgen plan (default: all that nothing aboard takes)",
    )
    parser.add_argument(
        "--aboard",
        nargs="+",
        default=[],
        metavar="POSITION[=TYPE]",
        help="the positions whose units stay aboard",
    )
    registration_option(parser)
    stations_option(parser)
    format_option(parser, "text", "json")


def run(options: argparse.Namespace) -> int:
    """Find the ways and print them; 1 when there is none for a mishap, or no procedure at all."""
    from procgen import report
    from procgen.cli.asked import asked_units
    from procgen.cli.inputs import hold_named
    from procgen.cli.moments import asked_cases, step_numbered
    from procgen.model.words import Operation
    from procgen.pipeline.checking import derive
    from procgen.results.plan import NoPlan
    from procgen.results.recovery import Outcome

    loaded, hold = hold_named(options.stations, options.hold, options.registration)
    if hold is None:
        return 1
    network, root = loaded.network, str(options.stations)
    units, aboard = asked_units(hold, network.unit_types, options.positions, options.aboard)
    procedure = derive(network, hold, Operation(options.operation), units, aboard)
    as_json = options.format == "json"
    if isinstance(procedure, NoPlan):
        no_plan = report.no_plan_json if as_json else report.no_plan_text
        print(no_plan(procedure, loaded.documents, root=root))
        return 1
    index = step_numbered(procedure, options.step)
    cases = asked_cases(network, hold, procedure, index, options.mishap)
    stations = [station for station in network.stations.values() if hold.name in station.holds]
    shown = report.recoveries_json if as_json else report.recoveries_text
    print(shown(cases, procedure, hold, stations, loaded.documents, root=root))
    return 1 if any(case.answer.outcome is Outcome.CALL for case in cases) else 0
