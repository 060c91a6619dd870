"""In which order to load or unload the holds of an aircraft, so that it does not tip on its tail.

The share of the weight on the nose gear is reckoned after every unit, and at the aft-most bay that each
passes. The order shown is the one that stays furthest from tipping; where even that one falls below the
aircraft's limit, a tail stand is needed. The load is a file as for `procgen load`; without one, every
position is filled, as heavy as it may be:

  procgen sequence PETREL-500 load.csv
  procgen sequence PETREL-500 load.csv --aboard staying.csv --operation unloading
  procgen sequence PETREL-500 --station K1B --steps

A load that exceeds a limit is refused: `procgen load` says which.
"""

from __future__ import annotations

import argparse
from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from procgen.cli.options import format_option, stations_option
from procgen.cli.registrations import holds_by_registration, registration_option
from procgen.diagnostics import ProcgenError

if TYPE_CHECKING:
    from procgen.diagnostics import Finding
    from procgen.model.hold import Hold
    from procgen.model.station import Network
    from procgen.results.load_check import GivenUnit
    from procgen.results.sequence import NoSequence
    from procgen.results.sequence import Sequence as AircraftSequence
    from procgen.source import Document

SUMMARY = "in which order to work an aircraft's holds, or that a tail stand is needed"


def arguments(parser: argparse.ArgumentParser) -> None:
    """The command's own arguments."""
    parser.add_argument("aircraft", metavar="AIRCRAFT", help="an aircraft type, as in the fleet's file")
    parser.add_argument(
        "load", metavar="LOAD", nargs="?", help="the units to load or unload, in CSV or YAML (default: full)"
    )
    parser.add_argument("--aboard", metavar="FILE", help="the units that stay aboard, in CSV or YAML")
    parser.add_argument(
        "--operation",
        choices=("loading", "unloading"),
        help="only this one (default: loading, then unloading)",
    )
    parser.add_argument("--station", metavar="CODE", help="only the holds that this station works")
    parser.add_argument("--steps", action="store_true", help="print every hold's steps too")
    parser.add_argument("--why", action="store_true", help="print the why of each figure too")
    registration_option(parser)
    stations_option(parser)
    format_option(parser, "text", "json")


def run(options: argparse.Namespace) -> int:
    """Plan and print; 1 when there is no plan, when a tail stand is needed, or when a file has a finding."""
    from procgen import report
    from procgen.disk.stations import read_stations
    from procgen.model.words import Operation
    from procgen.pipeline.aircraft import full_load, sequence
    from procgen.pipeline.checking import load_inputs
    from procgen.report.sequences import sequences_json

    loaded = load_inputs(read_stations(options.stations))
    network = _of_aircraft(loaded.network, options.aircraft, options.station, options.registration)
    documents, root = dict(loaded.documents), str(options.stations)
    units, found = _read(options.load, network, documents)
    aboard, more = _read(options.aboard, network, documents)
    findings = (*loaded.findings, *found, *more)
    if findings:
        # A load with a row left out would look lighter than it is: nothing is judged until all are read.
        as_json = options.format == "json"
        print((report.findings_json if as_json else report.findings_text)(findings, documents, root=root))
        return 1
    if options.load is None:
        taken = {(one.hold, bay) for one in aboard for bay in (one.position, *_sharing(network, one))}
        full = [unit for hold in network.holds.values() for unit in full_load(network, hold)]
        units = tuple(unit for unit in full if (unit.hold, unit.position) not in taken)
    twice = [one for one in units if (one.hold, one.position) in {(a.hold, a.position) for a in aboard}]
    if twice:
        raise ProcgenError(f"{twice[0].hold} {twice[0].position} is to be moved and is said to stay aboard")
    operations = [Operation(options.operation)] if options.operation else list(Operation)
    aircraft = network.aircraft[options.aircraft]
    outcomes = [sequence(network, aircraft, one, units, aboard) for one in operations]
    printed = [_printed(options, one, network, documents) for one in outcomes]
    if options.format == "json":
        print(sequences_json([one for one in printed if not isinstance(one, str)]))
    else:
        print("\n\n".join(one for one in printed if isinstance(one, str)))
    return 0 if all(_does(one) for one in outcomes) else 1


def _of_aircraft(network: Network, name: str, code: str | None, registration: str | None) -> Network:
    """The network with the holds of one aircraft only, and of one station where it is named.

    Where not all aircraft of the type have the same holds, a registration must say which one is meant.
    """
    from difflib import get_close_matches

    if name not in network.aircraft:
        near = get_close_matches(name, list(network.aircraft), n=1)
        hint = f"; did you mean {near[0]}?" if near else ""
        raise ProcgenError(f"there is no aircraft {name}{hint} (aircraft: {', '.join(network.aircraft)})")
    holds = {key: hold for key, hold in network.holds.items() if hold.aircraft == name}
    if code is not None:
        if code not in network.stations:
            raise ProcgenError(f"there is no station {code} (stations: {', '.join(network.stations)})")
        holds = {key: holds[key] for key in network.stations[code].holds if key in holds}
    if not holds:
        where = f" at {code}" if code is not None else ""
        raise ProcgenError(f"no hold of {name}{where} is described: name another aircraft or station")
    return replace(network, holds=_of_one(network, name, holds, registration))


def _of_one(
    network: Network, name: str, holds: Mapping[str, Hold], registration: str | None
) -> Mapping[str, Hold]:
    """Those of `holds` that one aircraft has. Raises `ProcgenError` where it must be said which one."""
    from procgen.pipeline.outfits import outfits

    if registration is not None:
        its = {hold.name for hold in holds_by_registration(network, registration).values()}
        left = {key: hold for key, hold in holds.items() if key in its}
        if not left:
            raise ProcgenError(f"{registration} has none of these holds: {', '.join(holds)}")
        return left
    groups = outfits(network.aircraft[name], holds.values())
    if len(groups) > 1:
        marks = "; ".join(", ".join(group.registrations) for group in groups)
        raise ProcgenError(
            f"not all aircraft of {name} have the same holds: name one with --registration ({marks})"
        )
    return holds


def _read(
    file: str | None, network: Network, documents: dict[str, Document]
) -> tuple[tuple[GivenUnit, ...], Sequence[Finding]]:
    """The units of a file, and what is wrong with it; its document is put to the others."""
    from procgen.disk.stations import read_text
    from procgen.load.given import given_load

    if file is None:
        return (), ()
    name = file if file.startswith(("/", "./", "../")) else f"./{file}"
    units, document, found = given_load(name, read_text(Path(file)), network)
    documents[name] = document
    return units, found


def _sharing(network: Network, unit: GivenUnit) -> frozenset[str]:
    return network.holds[unit.hold].overlapping(unit.position)


def _printed(
    options: argparse.Namespace,
    outcome: AircraftSequence | NoSequence,
    network: Network,
    documents: Mapping[str, Document],
) -> str | Mapping[str, object]:
    from procgen.limits.stability_tables import stability_table, verdict
    from procgen.report import sequences
    from procgen.results.sequence import NoSequence

    root, as_json = str(options.stations), options.format == "json"
    if isinstance(outcome, NoSequence):
        if as_json:
            return sequences.no_sequence_data(outcome, documents, root=root)
        return sequences.no_sequence_text(outcome, documents, root=root)
    title = f"{network.aircraft[options.aircraft].title}, {outcome.operation}"
    table = stability_table(f"stability-{outcome.operation}", title, outcome.gear, outcome.order)
    words = verdict(outcome.operation, outcome.order)
    if as_json:
        return sequences.sequence_data(outcome, words, table, documents, root=root)
    steps = network.holds if options.steps else None
    return sequences.sequence_text(outcome, words, table, documents, root=root, why=options.why, steps=steps)


def _does(outcome: AircraftSequence | NoSequence) -> bool:
    from procgen.results.sequence import NoSequence

    return not isinstance(outcome, NoSequence) and not outcome.order.tail_stand
