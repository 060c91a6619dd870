"""Compare two versions of a station's manual by meaning: what got less safe, why, and who accepted it.

A version is STATION, with what it is of it and which hold, where not all:

  K1B                 the draft: the files as they are
  K1B@2               revision 2
  K1B@git:main~3      the files as git has them in a revision
  K1B/SR-AFT@2        one hold of it
  SR-AFT              one hold, at the first station that works it

  procgen diff K1B@2 K1B                  what the draft changes since revision 2
  procgen diff K1B/SR-AFT N4T/SR-AFT      why does this station do it otherwise?

Each difference has a class, and the class says what the reviewer owes: loosened a named acceptance with a
reason (the line to add to CODE/answers.yaml is printed), tightened a look and a notice, changed a look,
wording nothing. Causes are found by making each edit of the inputs alone.

Exit status: 0 nothing owed, 1 something owed, 2 could not compare.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from procgen.cli.options import format_option, stations_option

if TYPE_CHECKING:
    from procgen.results.difference import Version

SUMMARY = "compare two versions by meaning: what got less safe, why, who accepted it"


def arguments(parser: argparse.ArgumentParser) -> None:
    """The command's own arguments."""
    parser.add_argument("was", metavar="A", help="the older version")
    parser.add_argument("now", metavar="B", help="the newer version, or the other station or hold")
    stations_option(parser)
    format_option(parser, "text", "markdown", "json", "html")
    parser.add_argument(
        "--anew",
        action="store_true",
        help="derive all of a draft again, even what the same program made of the same data in a release",
    )
    parser.add_argument("--out", type=Path, metavar="FILE", help="write there instead of printing")


def run(options: argparse.Namespace) -> int:
    """Compare and report; 1 when somebody owes something."""
    from procgen.cli.versions import Versions
    from procgen.pipeline.differing import reviewed

    versions = Versions(options.stations, options.anew)
    for spelt in (options.was, options.now):
        versions.expect(spelt)
    was, now = versions.side(options.was), versions.side(options.now)
    if was is None or now is None:
        print("procgen: could not compare: mend these first", file=sys.stderr)
        return 2
    found = reviewed(was, now, _answers(was.version, now.version))
    text = _shown(options, found)
    if options.out is None:
        print(text)
    else:
        options.out.write_text(text if text.endswith("\n") else f"{text}\n", encoding="utf-8")
        print(f"{options.out}: {len(found.comparison.differences)} differences, {len(found.owing)} owed")
    return 1 if found.owing else 0


def _answers(was: Version, now: Version) -> str:
    """The file that takes acceptances; none for two stations or holds, for no release joins them."""
    code = now.site.station.code
    return f"{code}/answers.yaml" if (was.site.station.code, was.hold) == (code, now.hold) else ""


def _shown(options: argparse.Namespace, found: object) -> str:
    from procgen import publish
    from procgen.disk import packaged
    from procgen.pipeline.side_by_side import side_by_side
    from procgen.report.differences import differences_markdown, differences_text
    from procgen.report.differences_json import differences_json
    from procgen.results.difference import Reviewed
    from procgen.source import read_document

    assert isinstance(found, Reviewed)  # noqa: S101
    root = str(options.stations)
    if options.format == "json":
        sides = (found.comparison.was, found.comparison.now)
        was, now = (
            {name: read_document(name, text)[0] for name, text in one.inputs.items()} for one in sides
        )
        return differences_json(found, was, now, root)
    if options.format == "markdown":
        return differences_markdown(found, root)
    if options.format == "html":
        return publish.comparison_page(side_by_side(found), packaged.templates(), root)
    return differences_text(found, root)
