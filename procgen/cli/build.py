"""Publish the stations as a static site: one site per station under one home page, and a phone card per
operation.

Nothing is published while the check finds an error, and the old site stays as it is until the new one is
complete.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from procgen.cli.options import day_option, stations_argument

SUMMARY = "publish the stations as a static site"


def arguments(parser: argparse.ArgumentParser) -> None:
    """The command's own arguments."""
    stations_argument(parser)
    parser.add_argument(
        "--out",
        type=Path,
        required=True,
        metavar="DIR",
        help="where the site goes; an old site there is replaced",
    )
    parser.add_argument(
        "--address",
        default="",
        metavar="URL",
        help="where everybody will find the site, as https://manuals.example/holds; printed cards then carry"
        " their address and its QR code",
    )
    day_option(parser)


def run(options: argparse.Namespace) -> int:
    """Check, then publish; 1 when an error stands in the way."""
    from procgen import report
    from procgen.cli.inputs import checked_stations
    from procgen.pipeline.publishing import build

    checked = checked_stations(options.stations, today=options.on)
    if checked.findings or checked.waived:
        root = str(options.stations)
        print(report.findings_text(checked.findings, checked.documents, root=root, waived=checked.waived))
    if not checked.publishable:
        print("procgen: nothing was published: mend the errors first", file=sys.stderr)
        return 1
    build(checked, options.out, options.on, options.address)
    stations = len(checked.network.stations)
    print(f"{options.out / 'index.html'}: {stations} station{'' if stations == 1 else 's'} published")
    return 0
