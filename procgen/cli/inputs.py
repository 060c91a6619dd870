"""What the commands share: read the folder, check it, find one hold in it."""

from __future__ import annotations

import sys
import unicodedata
from collections.abc import Mapping
from dataclasses import replace
from difflib import get_close_matches
from pathlib import Path

from procgen import load, release, report
from procgen.cli.registrations import hold_of
from procgen.diagnostics import ProcgenError
from procgen.disk import packaged
from procgen.disk.releases import RELEASES, read_releases
from procgen.disk.stations import read_stations
from procgen.model.hold import Hold
from procgen.model.station import Station
from procgen.model.step import Procedure
from procgen.pipeline import checking
from procgen.results.release import Chain

_STRANGE = ("Cc", "Cf", "Cs")
"""Unicode's categories of what no text of ours holds: control, format and half characters."""
_JOINERS = "\u200c\u200d"
"""Format characters that some scripts are written with."""


def checked_stations(
    folder: Path, extra: Mapping[str, str] | None = None, today: str = checking.NO_DAY
) -> checking.Checked:
    """Load and check a folder of stations, with `extra` procedure files (name to text), as of a day.

    The files of the result are named as they are found from here, folder included.
    """
    loaded = checking.load_inputs(read_stations(folder))
    documents, findings = dict(loaded.documents), list(loaded.findings)
    procedures: list[Procedure] = []
    for name, text in (extra or {}).items():
        read = load.load_procedure(name, text, loaded.network, packaged.schemas())
        procedure, documents[name], found = read
        findings.extend(found)
        if procedure is not None:
            procedures.append(procedure)
    loaded = replace(loaded, documents=documents, findings=tuple(findings))
    return checking.check(loaded, procedures, today)


def read_inputs(folder: Path) -> load.Loaded:
    """A folder of stations as it reads, not checked."""
    return checking.load_inputs(read_stations(folder))


def hold_named(folder: Path, name: str, registration: str | None = None) -> tuple[load.Loaded, Hold | None]:
    """One hold of a folder of stations; with a registration, the variant of it that this aircraft has.

    None when its description has findings, which are then printed. Raises `ProcgenError` with the known
    names when there is no such hold.
    """
    loaded = checking.load_inputs(read_stations(folder))
    hold = loaded.network.holds.get(name)
    if hold is not None:
        return loaded, hold if registration is None else hold_of(loaded.network, name, registration)
    if loaded.findings:
        print(report.findings_text(loaded.findings, loaded.documents, root=str(folder)))
        print(f"procgen: {name} cannot be read until these are mended", file=sys.stderr)
        return loaded, None
    known = list(loaded.network.holds)
    near = get_close_matches(name, known, n=1)
    hint = f"; did you mean {near[0]}?" if near else ""
    raise ProcgenError(f"there is no hold {name} in {folder}{hint} (holds: {', '.join(known)})")


def station_named(checked: checking.Checked, code: str) -> Station:
    """One station of a checked folder. Raises `ProcgenError` with the known codes where there is none."""
    known = checked.network.stations
    if code not in known:
        raise ProcgenError(f"there is no station {code} (stations: {', '.join(known)})")
    return known[code]


def station_folder(folder: Path, code: str) -> Path:
    """The folder of one station. Raises `ProcgenError` with the known codes where there is none."""
    if not folder.is_dir():
        raise ProcgenError(f"there is no folder {folder}")
    known = sorted(path.parent.name for path in folder.glob("*/station.yaml"))
    if code not in known:
        raise ProcgenError(f"there is no station {code} in {folder} (stations: {', '.join(known) or 'none'})")
    return folder / code


def releases_of(folder: Path, code: str) -> Chain:
    """The releases of one station as they lie in its folder. Raises `ProcgenError` where there is none."""
    return release.read_chain(code, read_releases(station_folder(folder, code) / RELEASES))


def one_line(text: str, what: str) -> str:
    """What was given on the command line, on one line.

    Raises `ProcgenError` where nothing is, and where something cannot be printed: control characters, signs
    that turn the direction of writing, halves of characters.
    """
    found = remark(text, what)
    if not found:
        raise ProcgenError(f"{what} is empty: say it in words")
    return found


def remark(text: str, what: str) -> str:
    """The same of a text that may be empty."""
    found = " ".join(text.split())
    strange = next((c for c in found if unicodedata.category(c) in _STRANGE and c not in _JOINERS), None)
    if strange is not None:
        raise ProcgenError(
            f"{what} has a character in it that cannot be printed (U+{ord(strange):04X}): leave it out"
        )
    return found
