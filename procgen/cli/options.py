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
        type=_day,
        default=datetime.date.today().isoformat(),
        metavar="DATE",
        help="judge waivers and expiries as of this day, as in 2026-11-25 (default: today)",
    )


def _day(text: str) -> str:
    try:
        return datetime.datetime.strptime(text, "%Y-%m-%d").date().isoformat()
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text} is not a day: write it as in 2026-11-25") from None
