"""Release a station's manual: check it, see that nothing is unanswered, and add it to the station's chain of
releases in CODE/releases/. A release is never rewritten; the next one is a new one.

Refused while the check has an error or a warning, and while a limit, check or restraint that was loosened
since the last release has no answer in CODE/answers.yaml; the lines to fill in there are printed. A release
is a draft until somebody else has approved it: see procgen approve.
"""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING

from procgen.cli.options import date_option, day, stations_option

if TYPE_CHECKING:
    from procgen.pipeline.releasing import Refused
    from procgen.report.places import Documents

SUMMARY = "give out a station's manual as a new revision"


def arguments(parser: argparse.ArgumentParser) -> None:
    """The command's own arguments."""
    parser.add_argument("station", metavar="STATION", help="the code of a station")
    parser.add_argument("--effective", type=day, required=True, metavar="DATE", help="in force from this day")
    parser.add_argument("--reason", required=True, metavar="TEXT", help="why there is a new revision")
    parser.add_argument("--author", required=True, metavar="NAME", help="who answers for it")
    parser.add_argument("--expires", type=day, metavar="DATE", help="a temporary revision: its last day")
    date_option(parser, "release")
    stations_option(parser)


def run(options: argparse.Namespace) -> int:
    """Release; 1 when something found or unanswered stands in the way."""
    from procgen.cli.inputs import checked_stations, one_line, station_folder, station_named
    from procgen.disk.releases import add, writing
    from procgen.pipeline.releasing import Refused, Wanted, prepare_release, refuse_dates
    from procgen.release import LIST_FILE

    author, reason = one_line(options.author, "the author"), one_line(options.reason, "the reason")
    wanted = Wanted(options.date, options.effective, author, reason, options.expires or "")
    with writing(station_folder(options.stations, options.station)) as releases:
        refuse_dates(wanted)
        checked = checked_stations(options.stations, today=options.date)
        ready = prepare_release(checked, station_named(checked, options.station), wanted)
        if isinstance(ready, Refused):
            _say_why(ready, checked.documents, str(options.stations), options.station)
            return 1
        add(releases, ready.name, ready.text, ready.lists, LIST_FILE)
    print(f"{releases / ready.name}: released; a draft until it is approved")
    return 0


def _say_why(refused: Refused, documents: Documents, root: str, station: str) -> None:
    from procgen import report
    from procgen.report.places import shown_place

    if refused.findings:
        print(report.findings_text(refused.findings, documents, root=root))
        print("procgen: nothing was released: mend or answer these first", file=sys.stderr)
    review = refused.review
    if review is None:
        return
    if review.owing:
        print(f"Loosened since the last release, and not answered in {root}/{station}/answers.yaml:")
    for one in review.owing:
        print(f"  {one.difference.subject}: {one.difference.why}")
        if one.stale is not None:
            print(f"    the answer of {one.stale.by} was given to another state of it")
        print(f"    {one.line}")
    wrong = [(one, "answers no difference: take it out") for one in review.idle]
    wrong += [(one.answer, one.why) for one in refused.unfit]
    for answer, why in wrong:
        where = shown_place(answer.place, documents, root)
        print(f"{where}: the answer to “{answer.difference}” {why}")
    print("procgen: nothing was released: answer these first", file=sys.stderr)
