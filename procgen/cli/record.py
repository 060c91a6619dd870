"""Print the canonical record of a station's manual: one line of JSON with everything that its pages show, the
text of every file it was made from, and nothing else. Its SHA-256 is the manual's identity.
"""

from __future__ import annotations

import argparse
import sys

from procgen.cli.options import stations_option

SUMMARY = "print the canonical record of a station's manual"


def arguments(parser: argparse.ArgumentParser) -> None:
    """The command's own arguments."""
    parser.add_argument("station", metavar="STATION", help="the code of a station")
    stations_option(parser)
    parser.add_argument("--hash", action="store_true", help="print the manual's identity only")


def run(options: argparse.Namespace) -> int:
    """Check, then print; 1 when an error stands in the way, as no manual follows from the files then."""
    from procgen import release, report
    from procgen.cli.inputs import checked_stations, station_named
    from procgen.pipeline.recording import record_of

    checked = checked_stations(options.stations)
    if not checked.publishable:
        print(report.findings_text(checked.findings, checked.documents, root=str(options.stations)))
        print("procgen: there is no record: mend the errors first", file=sys.stderr)
        return 1
    text = release.record_text(record_of(checked, station_named(checked, options.station)))
    print(release.identity(text) if options.hash else text, end="\n" if options.hash else "")
    return 0
