"""From two versions of a manual to what differs and which edit of the inputs caused it."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from procgen import diff
from procgen.pipeline.comparing import rules_of
from procgen.pipeline.deriving import derive_site
from procgen.results.difference import Comparison, Version
from procgen.results.page import StationSite
from procgen.results.record import Record
from procgen.results.release import Explanation

_HOLDS = "fleet/holds/"


def version_of(record: Record, label: str) -> Version:
    """What a record says, to be compared."""
    inputs = {name: one.text for name, one in record.inputs.items()}
    return Version(label, record.manual, inputs, rules_of(record))


def compared(was: Version, now: Version) -> Comparison:
    """All that differs, with the edits of the inputs and what caused what.

    Two stations, or two holds, are compared as if the second were a later state of the first.
    """
    mine, theirs = was.inputs, _filed_like(was, now)
    one_hold = bool(was.hold and now.hold)
    wanted = frozenset({was.hold, now.hold}) if one_hold else None

    def derive(files: Mapping[str, str], holds: Collection[str] | None) -> StationSite | None:
        return derive_site(files, wanted if holds is None else holds)

    if one_hold:
        theirs = _others_alike(mine, theirs, was.hold)
    edits = diff.input_edits(mine, theirs)
    return diff.explained(diff.compare(was, now), edits, derive)


def _filed_like(was: Version, now: Version) -> Mapping[str, str]:
    """The newer files under the names that the older station's, or its only hold's, files have."""
    names = {now.site.station.code: was.site.station.code}
    holds: dict[str, str] = {}
    if was.hold and now.hold:
        holds = {f"{_HOLDS}{now.hold}.yaml": f"{_HOLDS}{was.hold}.yaml"}
    found: dict[str, str] = {}
    for file, text in now.inputs.items():
        folder, slash, rest = file.partition("/")
        found[holds.get(file) or f"{names.get(folder, folder)}{slash}{rest}"] = text
    return found


def _others_alike(was: Mapping[str, str], now: Mapping[str, str], hold: str) -> Mapping[str, str]:
    """The newer files with the older ones of every other hold: what another hold says is not compared."""
    kept = {file: text for file, text in now.items() if not _of_other(file, hold)}
    return {**kept, **{file: text for file, text in was.items() if _of_other(file, hold)}}


def _of_other(file: str, hold: str) -> bool:
    return file.startswith(_HOLDS) and file != f"{_HOLDS}{hold}.yaml"


def explanation(was: Record, now: Record) -> Explanation:
    """What differs between two records of one station, and which edit of the inputs caused it."""
    found = compared(version_of(was, "was"), version_of(now, "now"))
    return Explanation(found.differences, found.edits, found.idle)
