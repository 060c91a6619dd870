"""Find everything that is wrong with the descriptions, and with the procedures derived or written from them.

Reads every file strictly, checks its shape, names, units and sources; derives the loading and unloading
procedure of every hold, simulates it and every procedure written by hand step by step; looks for missing
and misplaced warnings and checks. All findings come in one run, each with its file, line and column, the
rule (see `procgen explain RULE`) and a way out. --format sarif writes them for review tools (OASIS SARIF
2.1.0), --format markdown as a short table to put under a change.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from procgen.cli.options import day_option, format_option, stations_argument

if TYPE_CHECKING:
    from procgen.pipeline.checking import Checked

SUMMARY = "find everything that is wrong, with file, line and column"


def arguments(parser: argparse.ArgumentParser) -> None:
    """The command's own arguments."""
    stations_argument(parser)
    parser.add_argument(
        "--procedure",
        action="append",
        default=[],
        metavar="FILE",
        help="check this procedure too, as if a station had written it (- reads standard input)",
    )
    parser.add_argument(
        "--registration",
        metavar="MARK",
        help="check everything, and only count what is found in holds and procedures of other aircraft",
    )
    day_option(parser)
    format_option(parser, "text", "json", "sarif", "markdown")


def run(options: argparse.Namespace) -> int:
    """Check and report; 1 when there is anything to answer."""
    from procgen import lint, report
    from procgen.cli.inputs import checked_stations
    from procgen.disk import packaged

    checked = checked_stations(options.stations, _extra_files(options.procedure), options.on)
    told: list[str] = []
    if options.registration is not None:
        checked, told = _for_one(checked, options.registration)
    shown, root = (checked.findings, checked.documents), str(options.stations)
    if options.format == "json":
        print(report.findings_json(*shown, root=root, waived=checked.waived))
    elif options.format == "sarif":
        rules = lint.load_rules(packaged.rule_pages())
        print(report.findings_sarif(*shown, rules, root=root, waived=checked.waived))
    elif options.format == "markdown":
        print(report.findings_markdown(*shown, root=root, waived=checked.waived), end="")
    elif checked.findings or checked.waived:
        print(report.findings_text(*shown, root=root, waived=checked.waived))
    else:
        _print_clean(checked)
    for line in told:
        print(line, file=sys.stdout if options.format == "text" else sys.stderr)
    return 1 if checked.findings else 0


def _for_one(checked: Checked, registration: str) -> tuple[Checked, list[str]]:
    """What was found that concerns one aircraft, and in words what that is and what was left out."""
    from procgen.cli.registrations import nobody
    from procgen.pipeline.outfits import concerns

    mine = concerns(checked.network, registration)
    if mine is None:
        raise nobody(checked.network, registration)
    shown = tuple(one for one in checked.findings if one.place.file not in mine.not_for)
    waived = tuple(one for one in checked.waived if one.finding.place.file not in mine.not_for)
    holds = f"hold{'' if len(mine.holds) == 1 else 's'} {', '.join(mine.holds) or 'none'}"
    written = f"; procedures written by hand: {', '.join(mine.procedures) or 'none'}"
    lines = [f"{mine.registration}: {holds}{written}."]
    left = Counter(one.place.file for one in checked.findings if one.place.file in mine.not_for)
    if left:
        places = (f"{_counted(number, 'finding')} in {file}" for file, number in sorted(left.items()))
        counted = ", ".join(places)
        lines.append(f"Not shown, because not for {mine.registration}: {counted}.")
    return replace(checked, findings=shown, waived=waived), lines


def _extra_files(names: list[str]) -> Mapping[str, str]:
    from procgen.disk.stations import read_text

    files: dict[str, str] = {}
    for name in names:
        if name == "-":
            files["<standard input>"] = sys.stdin.read()
        else:
            # Named from here and not from the stations folder: say so.
            here = name if name.startswith(("/", "./", "../")) else f"./{name}"
            files[here] = read_text(Path(name))
    return files


def _print_clean(checked: object) -> None:
    from procgen.pipeline.checking import Checked

    assert isinstance(checked, Checked)  # noqa: S101
    stations, holds = len(checked.network.stations), len(checked.network.holds)
    derived, written = len(checked.generated), sum(len(found) for found in checked.written.values())
    print(
        f"No finding: {_counted(stations, 'station')}, {_counted(holds, 'hold')}, "
        f"{derived} derived and {_counted(written, 'hand-written procedure')} simulated."
    )


def _counted(number: int, thing: str) -> str:
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"
