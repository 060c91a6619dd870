"""Write the releases of the demonstration stations anew: `python -m tests.release.demo`.

Each station's history ends in what its files say now; the revisions before that are told as edits that lead
back from there. Everything goes through the check, the gate and the chain as for anybody: what was loosened
is answered in `answers.yaml`, and a release is approved by somebody else than its author.

Until the first release of the program the form of records may still change, and this is run again; after that
the files are what they are.
"""

from __future__ import annotations

import re
import shutil
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from procgen import release
from procgen.disk.stations import read_stations
from procgen.pipeline.checking import check, load_inputs
from procgen.pipeline.releasing import Refused, Wanted, prepare_approval, prepare_release
from tests.support import STATIONS

Edit = tuple[str, str, str]
"""A file, the text that stands in it once, and what stood there then."""

SR_AFT = "fleet/holds/SR-AFT.yaml"
K1B = "K1B/station.yaml"
N4T = "N4T/station.yaml"
EVENING = "N4T/procedures/sr-aft-evening.yaml"
ARDEN, SORREL, QUILL = "M. Arden (invented)", "I. Sorrel (invented)", "R. Quill (invented)"

_WIND = "wind: {opening: 35 kt, open: 50 kt, reason: Exposed stands; station notice 4 (invented).}"
_APRON = "wind: {opening: 25 kt, open: 40 kt, reason: Works beside stand 12; station notice 6 (invented).}"
_LB = "mass-unit: lb\n"
_SCAFFOLD = (
    "mass-unit: lb\nwind: {opening: 20 kt, open: 30 kt, reason: Scaffold beside the stands; station notice 2"
    " (invented).}\n"
)
_COMBINED = "combined: 4000 kg, source: WB 5-2}"
_UNSOURCED = (
    "combined: 3800 kg, waive: [{rule: limit-without-source, reason: The page of issue 4 is on its way.,"
    ' by: M. Arden (invented), until: "2026-12-31"}]}'
)
_LOWER = "combined: 3600 kg, source: WB 5-2}"


_LETTER = (("", "The maker's letter (invented) raises it to 3 800 kg; its page follows, and is waited for."),)


@dataclass(frozen=True)
class Revision:
    """One revision: what it says of itself, and the edits that lead from the files of today to it."""

    wanted: Wanted
    edits: tuple[Edit, ...] = ()
    holds: str = ""
    """The holds that the station worked then; empty for those of today."""
    without: tuple[str, ...] = ()
    """The files of today that there were not then."""
    reasons: tuple[tuple[str, str], ...] = ()
    """Why what was loosened was accepted, by how the differences' names begin: the first that fits."""


HISTORY: Mapping[str, Sequence[Revision]] = {
    "K1B": (
        Revision(
            Wanted("2026-08-24", "2026-09-01", ARDEN, "First issue: the aft hold of the Skua 180."),
            ((SR_AFT, _COMBINED, _LOWER),),
            "SR-AFT",
        ),
        Revision(
            Wanted(
                "2026-09-28",
                "2026-10-05",
                ARDEN,
                "The aft hold takes 3 800 kg in all, by the maker's letter (invented).",
            ),
            ((SR_AFT, _COMBINED, _UNSOURCED),),
            "SR-AFT",
            reasons=_LETTER,
        ),
        Revision(
            Wanted(
                "2026-10-19",
                "2026-10-20",
                ARDEN,
                "Works beside stand 12: doors stay shut above 25 kt of wind.",
                "2026-11-15",
            ),
            (
                (SR_AFT, _COMBINED, _UNSOURCED),
                (K1B, _WIND, _APRON),
            ),
            "SR-AFT",
        ),
        Revision(
            Wanted(
                "2026-11-13",
                "2026-11-16",
                ARDEN,
                "New here: the forward hold of the Petrel 500, the aft holds for pallets and for bulk."
                " Stand 12 is open again; the aft hold of the Skua 180 takes 4 000 kg by issue 4.",
            ),
            reasons=(
                (
                    "SR-AFT/zones/",
                    "Page 5-2 of issue 4 has come and says 4 000 kg; read beside the old page.",
                ),
                (
                    "station/holds/",
                    "New here: walked through empty with the loading supervisor (invented), loading and"
                    " unloading, step by step.",
                ),
                ("", "The works beside stand 12 are over; the wind limits of before count again."),
            ),
        ),
    ),
    "N4T": (
        Revision(
            Wanted("2026-09-07", "2026-09-14", SORREL, "First issue: the aft hold of the Skua 180."),
            ((SR_AFT, _COMBINED, _LOWER),),
            "SR-AFT",
            (EVENING,),
        ),
        Revision(
            Wanted(
                "2026-10-12",
                "2026-10-19",
                SORREL,
                "The aft hold takes 3 800 kg in all, by the maker's letter (invented).",
            ),
            ((SR_AFT, _COMBINED, _UNSOURCED),),
            "SR-AFT",
            (EVENING,),
            _LETTER,
        ),
        Revision(
            Wanted(
                "2026-10-26",
                "2026-10-27",
                SORREL,
                "Scaffold beside the stands: doors stay shut above 20 kt of wind.",
                "2026-11-15",
            ),
            ((SR_AFT, _COMBINED, _UNSOURCED), (N4T, _LB, _SCAFFOLD)),
            "SR-AFT",
            (EVENING,),
        ),
        Revision(
            Wanted(
                "2026-11-09",
                "2026-11-16",
                SORREL,
                "New here: the hold that is worked by hand, and the evening service of Q4-R3 and Q4-R4."
                " The scaffold is gone; the aft hold takes 4 000 kg by issue 4.",
            ),
            reasons=(
                (
                    "SR-AFT/zones/",
                    "Page 5-2 of issue 4 has come and says 4 000 kg; read beside the old page.",
                ),
                (
                    "station/holds/",
                    "New here: loaded and unloaded once by hand under the eyes of the loading supervisor"
                    " (invented).",
                ),
                (
                    "",
                    "The scaffold was taken down on 2026-11-06; the aircraft's own wind limits count again.",
                ),
            ),
        ),
    ),
}


class _Bench:
    """A station's files on the way through its history."""

    def __init__(self, code: str, files: Mapping[str, str]) -> None:
        self.code = code
        own = (f"{code}/", "fleet/")
        self.now = {name: text for name, text in files.items() if name.startswith(own)}
        self.written: dict[str, str] = {}
        self.answers = ""

    def add(self, revision: Revision) -> None:
        """Release and approve one revision; what it owes is answered first."""
        ready = self._prepared(revision)
        if isinstance(ready, Refused):
            assert ready.review is not None, [one.message for one in ready.findings]
            assert not ready.review.idle, ready.review.idle
            for one in ready.review.owing:
                reason = next(
                    why for begin, why in revision.reasons if one.difference.identity.startswith(begin)
                )
                self.answers += f"  {_filled(one.line, revision.wanted, reason)}\n"
                print(
                    f"{self.code}: {one.difference.identity}: {one.difference.why}: {reason}", file=sys.stderr
                )
            ready = self._prepared(revision)
        assert isinstance(ready, release.Addition), ready
        self._write(ready)
        chain = release.chains(self._in_place())[self.code]
        number = len(chain.releases)
        self._write(prepare_approval(chain, number, QUILL, revision.wanted.date, ""))
        print(f"{self.code} {number}: {len(ready.text)} characters", file=sys.stderr)

    def _prepared(self, revision: Revision) -> release.Addition | Refused:
        assert set(revision.without) <= set(self.now), revision.without
        files = {name: text for name, text in self.now.items() if name not in revision.without}
        for name, text, was in revision.edits:
            assert files[name].count(text) == 1, f"“{text}” stands {files[name].count(text)} times in {name}"
            files[name] = files[name].replace(text, was)
        own = f"{self.code}/station.yaml"
        if revision.holds:
            files[own] = re.sub(r"(?m)^holds: \[.*\]$", f"holds: [{revision.holds}]", files[own])
        worked = files[own].split("holds: [")[1].split("]")[0].split(", ")
        holds = {f"fleet/holds/{name}.yaml" for name in worked}
        files = {n: t for n, t in files.items() if not n.startswith("fleet/holds/") or n in holds}
        if self.answers:
            files[f"{self.code}/answers.yaml"] = f"answers:\n{self.answers}"
        loaded = load_inputs({**files, **self._in_place()})
        checked = check(loaded, today=revision.wanted.date)
        return prepare_release(checked, checked.network.stations[self.code], revision.wanted)

    def _in_place(self) -> dict[str, str]:
        return {f"{self.code}/releases/{name}": text for name, text in self.written.items()}

    def _write(self, addition: release.Addition) -> None:
        self.written |= {addition.name: addition.text, release.LIST_FILE: addition.lists[1]}


def _filled(line: str, wanted: Wanted, reason: str) -> str:
    return line.replace("NAME", QUILL).replace("YYYY-MM-DD", wanted.date).replace("WHY", reason)


def write(stations: Path) -> None:
    """Write every station's releases and answers into the folder of stations."""
    files = {name: text for name, text in read_stations(stations).items() if "/releases/" not in name}
    for code, revisions in HISTORY.items():
        bench = _Bench(code, {n: t for n, t in files.items() if not n.endswith("/answers.yaml")})
        for revision in revisions:
            bench.add(revision)
        folder = stations / code / "releases"
        shutil.rmtree(folder, ignore_errors=True)
        folder.mkdir()
        for name, text in bench.written.items():
            (folder / name).write_text(text, encoding="utf-8")
        (stations / code / "answers.yaml").write_text(f"answers:\n{bench.answers}", encoding="utf-8")


if __name__ == "__main__":
    write(STATIONS)
