"""Options that several commands share."""

from __future__ import annotations

import argparse
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
