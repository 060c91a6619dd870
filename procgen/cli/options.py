"""Options that several commands share."""

from __future__ import annotations

import argparse
import datetime
from pathlib import Path


def stations_argument(parser: argparse.ArgumentParser) -> None:
    """`[STATIONS]`, the folder of descriptions."""
    parser.add_argument(
        "stations",
        nargs="?",
        type=Path,
        default=Path("stations"),
        metavar="STATIONS",
        help="the folder of stations (default: ./stations)",
    )


def stations_option(parser: argparse.ArgumentParser) -> None:
    """`--stations DIR`, for commands whose argument is a hold."""
    parser.add_argument(
        "--stations",
        type=Path,
        default=Path("stations"),
        metavar="DIR",
        help="the folder of stations (default: ./stations)",
    )


def format_option(parser: argparse.ArgumentParser, *formats: str) -> None:
    """`--format`, the first of `formats` being the default."""
    parser.add_argument(
        "--format", choices=formats, default=formats[0], help=f"how to print (default: {formats[0]})"
    )


def day_option(parser: argparse.ArgumentParser) -> None:
    """`--on DATE`, the day for which dates in the data are judged."""
    parser.add_argument(
        "--on",
        type=day,
        default=datetime.date.today().isoformat(),
        metavar="DATE",
        help="judge waivers, effective and expiry dates as of this day, as in 2026-11-25 (default: today)",
    )


def date_option(parser: argparse.ArgumentParser, what: str) -> None:
    """`--date DATE`, the day on which something is done; today unless it is given."""
    parser.add_argument(
        "--date",
        type=day,
        default=datetime.date.today().isoformat(),
        metavar="DATE",
        help=f"the day of the {what} (default: today)",
    )


def day(text: str) -> str:
    """A day of the calendar as ISO 8601 text, for `argparse`."""
    try:
        return datetime.datetime.strptime(text, "%Y-%m-%d").date().isoformat()
    except ValueError:
        raise argparse.ArgumentTypeError(
            f"“{text}” is not a day of the calendar: write year, month and day, as in 2026-09-01"
        ) from None


def revision_number(text: str) -> int:
    """The number of a revision, for `argparse`."""
    if not (text.isascii() and text.isdecimal()) or int(text) == 0:
        raise argparse.ArgumentTypeError(f"“{text}” is no number of a revision: write 1, 2, 3 ...")
    return int(text)
