"""What a version is called on the command line, and the version that it names."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path

from procgen import report
from procgen.cli.inputs import checked_stations, releases_of, station_named
from procgen.diagnostics import ProcgenError
from procgen.disk.git import read_revision
from procgen.pipeline.checking import Checked, check, load_inputs
from procgen.pipeline.differing import Side, draft_side, only_hold, released_side

_SPELT = re.compile(r"(?P<head>[^/@]+)(?:/(?P<hold>[^@]+))?(?:@(?P<which>.+))?")
DRAFT = "draft"


@dataclass
class Versions:
    """The versions of a folder of stations; each state of the folder is checked once.

    `anew`: nothing of a draft is taken from its last release, even where it follows from the same.
    """

    folder: Path
    anew: bool = False
    _revisions: dict[str, Checked] = field(default_factory=dict)
    _said: set[str] = field(default_factory=set)

    @cached_property
    def _draft(self) -> Checked:
        return checked_stations(self.folder)

    def expect(self, spelt: str) -> None:
        """Raise `ProcgenError` at once where a text names a station or hold that lies nowhere in the folder.

        Only file names are looked at: the check of a whole folder, which `side` makes, takes its time.
        """
        found = _SPELT.fullmatch(spelt)
        if found is None or (found["which"] or "").startswith("git:") or not self.folder.is_dir():
            return
        stations = sorted(path.parent.name for path in self.folder.glob("*/station.yaml"))
        holds = sorted(path.stem for path in self.folder.glob("fleet/holds/*.yaml"))
        known = stations if found["hold"] or found["which"] else [*stations, *holds]
        if found["head"] not in known:
            raise ProcgenError(
                f"there is no station or hold {found['head']} in {self.folder}"
                f" (stations: {', '.join(stations)}; holds: {', '.join(holds)})"
            )

    def side(self, spelt: str) -> Side | None:
        """The version that a text names; None, with its findings printed, where it has errors.

        Raises `ProcgenError` where the text names no version.
        """
        found = _SPELT.fullmatch(spelt)
        if found is None:
            raise ProcgenError(f"“{spelt}” is no version: write STATION, STATION@REVISION or STATION/HOLD")
        which = found["which"] or DRAFT
        if which.isdecimal():
            return self._released(found["head"], found["hold"], int(which))
        checked = self._state(which)
        if not checked.publishable:
            self._say(report.findings_text(checked.findings, checked.documents, root=str(self.folder)))
            return None
        code, hold = self._named(checked, found["head"], found["hold"])
        station = station_named(checked, code)
        label = f"{code}, the draft" if which == DRAFT else f"{code} in {which.removeprefix('git:')}"
        side = draft_side(checked, station, label, anew=self.anew)
        return replace(side, version=only_hold(side.version, hold)) if hold else side

    def _released(self, code: str, hold: str | None, number: int) -> Side | None:
        """A release, with what was accepted in it and who approved it."""
        chain = releases_of(self.folder, code)
        if chain.findings:
            self._say(report.findings_text(chain.findings, {}, root=str(self.folder)))
            return None
        side = released_side(chain, number)
        return replace(side, version=only_hold(side.version, hold)) if hold else side

    def _say(self, findings: str) -> None:
        """Print findings, once where both sides have the same."""
        if findings not in self._said:
            print(findings)
        self._said.add(findings)

    def _state(self, which: str) -> Checked:
        """The folder as it is, or as git has it."""
        if which == DRAFT:
            return self._draft
        if not which.startswith("git:"):
            raise ProcgenError(f"“{which}” is no revision number, “draft” or “git:REVISION”")
        if which not in self._revisions:
            files: Mapping[str, str] = read_revision(self.folder, which.removeprefix("git:"))
            self._revisions[which] = check(load_inputs(files))
        return self._revisions[which]

    @staticmethod
    def _named(checked: Checked, head: str, hold: str | None) -> tuple[str, str | None]:
        """The station, and the hold where only one is meant; a hold alone is that of its first station."""
        if head in checked.network.stations or hold is not None or head not in checked.network.holds:
            return head, hold
        working = [code for code, one in checked.network.stations.items() if head in one.holds]
        if not working:
            raise ProcgenError(f"no station works hold {head}")
        return working[0], head
