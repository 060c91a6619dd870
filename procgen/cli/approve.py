"""Approve a release: record who accepts it, with all its differences from the release before. A release that
nobody has approved is published as a draft. Whoever wrote a release cannot approve it.
"""

from __future__ import annotations

import argparse
import sys

from procgen.cli.options import date_option, revision_number, stations_option

SUMMARY = "approve a released revision"


def arguments(parser: argparse.ArgumentParser) -> None:
    """The command's own arguments."""
    parser.add_argument("station", metavar="STATION", help="the code of a station")
    parser.add_argument("revision", type=revision_number, metavar="REV", help="the number of the revision")
    parser.add_argument("--as", dest="name", required=True, metavar="NAME", help="who approves it")
    parser.add_argument("--remark", default="", metavar="TEXT", help="what is to be kept with the approval")
    parser.add_argument(
        "--differences",
        default="",
        metavar="HASH",
        help="what was looked at: the hash that procgen diff prints; nothing else is approved then",
    )
    date_option(parser, "approval")
    stations_option(parser)


def run(options: argparse.Namespace) -> int:
    """Approve; 1 when the chain of releases has findings."""
    from procgen import report
    from procgen.cli.inputs import one_line, releases_of, remark, station_folder
    from procgen.disk.releases import add, writing
    from procgen.pipeline.releasing import prepare_approval
    from procgen.release import LIST_FILE

    name = one_line(options.name, "the name")
    words = remark(options.remark, "the remark")
    with writing(station_folder(options.stations, options.station)) as releases:
        chain = releases_of(options.stations, options.station)
        if chain.findings:
            print(report.findings_text(chain.findings, {}, root=str(options.stations)))
            print("procgen: nothing was approved: mend the releases first", file=sys.stderr)
            return 1
        looked_at = options.differences.strip().lower()
        ready = prepare_approval(chain, options.revision, name, options.date, words, looked_at)
        add(releases, ready.name, ready.text, ready.lists, LIST_FILE)
    print(f"{releases / ready.name}: revision {options.revision} approved by {name}")
    return 0
