"""Check a given load against every limit of its hold: used, limit and margin of each, and which binds first.

The file is CSV (a first line that names the columns: position, type, mass, and where wanted unit and hold) or
YAML (`hold`, and `units`, a list of {position, type, mass}):

  position,type,mass,unit
  41,AKH,1050,kg
  42,AKH,900 kg

Limits are compared exactly; used masses are printed rounded up, limits and margins rounded down.
"""

from __future__ import annotations

import argparse
import sys

from procgen.cli.options import format_option, stations_option
from procgen.cli.registrations import registration_option

SUMMARY = "check a given load against every limit: used, margin, first to bind"


def arguments(parser: argparse.ArgumentParser) -> None:
    """The command's own arguments."""
    parser.add_argument("file", metavar="FILE", help="the load, in CSV or YAML")
    parser.add_argument("--hold", metavar="HOLD", help="the hold of units that name none")
    registration_option(parser)
    stations_option(parser)
    parser.add_argument("--why", action="store_true", help="print the other candidates of each position too")
    format_option(parser, "text", "json")


def run(options: argparse.Namespace) -> int:
    """Check and print; 1 when a limit is exceeded, a unit is refused or a row has a finding."""
    from dataclasses import replace
    from pathlib import Path

    from procgen import report
    from procgen.cli.registrations import holds_by_registration
    from procgen.diagnostics import ProcgenError
    from procgen.disk.stations import read_stations, read_text
    from procgen.limits.given import check_given
    from procgen.load.given import given_load
    from procgen.pipeline.checking import load_inputs
    from procgen.report.load_check import load_json, load_text

    loaded = load_inputs(read_stations(options.stations))
    network = loaded.network
    if options.registration is not None:
        network = replace(network, holds=holds_by_registration(network, options.registration))
    if options.hold is not None and options.hold not in network.holds:
        raise ProcgenError(f"there is no hold {options.hold} (holds: {', '.join(network.holds)})")
    name = options.file if options.file.startswith(("/", "./", "../")) else f"./{options.file}"
    units, document, found = given_load(name, read_text(Path(options.file)), network, options.hold)
    units = tuple(replace(unit, hold=network.holds[unit.hold].name) for unit in units)
    documents = {**loaded.documents, name: document}
    findings, root = (*loaded.findings, *found), str(options.stations)
    checks = [
        check_given(hold, network.unit_types, [unit for unit in units if unit.hold == hold.name])
        for hold in {one.name: one for one in network.holds.values()}.values()
        if any(unit.hold == hold.name for unit in units)
    ]
    if findings:
        # A load with a row left out would look lighter than it is: nothing is judged until all are read.
        if options.format == "json":
            print(report.findings_json(findings, documents, root=root))
        else:
            print(report.findings_text(findings, documents, root=root))
            print("procgen: the load was not judged: mend these first", file=sys.stderr)
        return 1
    if options.format == "json":
        print(load_json(checks, documents, root=root))
    else:
        print(load_text(checks, why=options.why))
    return 0 if all(check.met for check in checks) else 1
