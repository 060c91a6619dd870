"""List the revisions of a station: number, dates, how each stands, who wrote and who approved it, why, and
the identity of what was released.
"""

from __future__ import annotations

import argparse
from dataclasses import replace

from procgen.cli.options import day_option, format_option, stations_option
from procgen.diagnostics import Severity

SUMMARY = "list the revisions of a station"


def arguments(parser: argparse.ArgumentParser) -> None:
    """The command's own arguments."""
    parser.add_argument("station", metavar="STATION", help="the code of a station")
    day_option(parser)
    stations_option(parser)
    format_option(parser, "text", "json")


def run(options: argparse.Namespace) -> int:
    """Print; 1 when the chain of releases has findings, which are printed with it."""
    from procgen import release, report
    from procgen.cli.inputs import read_inputs, releases_of
    from procgen.report.history import history_json, history_text

    chain = releases_of(options.stations, options.station)
    # Of a chain that is not in order nobody can say what is in force: the newest may be what is lost.
    standings = {} if chain.findings else release.standings(chain, options.on)
    loaded = read_inputs(options.stations)
    given = {chain.station: loaded.answers.get(chain.station, ())}
    known = {chain.station: chain} if chain.releases else {}
    traces = () if chain.findings else (*release.all_gone(given, known), *release.waiting(given, known))
    chain = replace(chain, findings=(*chain.findings, *traces))
    if options.format == "json":
        print(history_json(chain, standings))
    else:
        print(history_text(chain, standings))
        if chain.findings:
            print(report.findings_text(chain.findings, loaded.documents, root=str(options.stations)))
    return 1 if any(one.severity is not Severity.ADVICE for one in chain.findings) else 0
