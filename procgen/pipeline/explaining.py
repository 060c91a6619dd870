"""From two versions of a manual to what differs and which edit of the inputs caused it."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from procgen import diff
from procgen.diff.causes import Derive
from procgen.diff.inputs import flow
from procgen.pipeline.comparing import rules_of
from procgen.pipeline.deriving import derive_site
from procgen.results.difference import Comparison, Version
from procgen.results.page import StationSite
from procgen.results.record import Record
from procgen.results.release import Explanation
from procgen.source import read_document

_HOLDS = "fleet/holds/"
_STATION = "/station.yaml"
_PROCEDURES = "/procedures/"


def version_of(record: Record, label: str) -> Version:
    """What a record says, to be compared."""
    inputs = {name: one.text for name, one in record.inputs.items()}
    return Version(label, record.manual, inputs, rules_of(record))


def compared(was: Version, now: Version) -> Comparison:
    """All that differs, with the edits of the inputs and what caused what.

    Two stations, or two holds, are compared as if the second were a later state of the first: the files of
    one are paired with those of the other, and each edit names both.
    """
    one_hold = bool(was.hold and now.hold)
    theirs, called = _filed_like(was, now)
    mine = _of_hold(was.inputs, was.hold) if one_hold else was.inputs
    edits = diff.input_edits(mine, theirs, called)
    derive = _one_hold_of(was, now) if one_hold else derive_site
    return diff.explained(diff.compare(was, now), edits, derive)


def _filed_like(was: Version, now: Version) -> tuple[Mapping[str, str], Mapping[str, str]]:
    """The newer files, where one hold is compared only its own, and what they are really called.

    They go under the names that the older station's, and its only hold's, files have.
    """
    one_hold = bool(was.hold and now.hold)
    names = {now.site.station.code: was.site.station.code}
    holds = {_file_of(now.hold): _file_of(was.hold)} if one_hold else {}
    found: dict[str, str] = {}
    called: dict[str, str] = {}
    for file, text in (_of_hold(now.inputs, now.hold) if one_hold else now.inputs).items():
        folder, slash, rest = file.partition("/")
        paired = holds.get(file) or f"{names.get(folder, folder)}{slash}{rest}"
        found[paired] = text
        called[paired] = file
    return found, called


def _file_of(hold: str) -> str:
    return f"{_HOLDS}{hold}.yaml"


def _of_hold(files: Mapping[str, str], hold: str) -> Mapping[str, str]:
    """The files without those of other holds: what another hold says is not compared."""
    return {
        file: text
        for file, text in files.items()
        if file == _file_of(hold)
        or not (file.startswith(_HOLDS) or (_PROCEDURES in file and _said(file, text, "hold") != hold))
    }


def _one_hold_of(was: Version, now: Version) -> Derive:
    """What is published of the one hold that is compared.

    Of the other holds only the one is there that it says it is a variant of; the station works none of them.
    """
    others = {
        _said(file, text, "hold"): text
        for side in (now, was)
        for file, text in side.inputs.items()
        if file.startswith(_HOLDS)
    }
    own = _file_of(was.hold)

    def derive(files: Mapping[str, str], _holds: Collection[str] | None) -> StationSite | None:
        name = _said(own, files[own], "hold")
        family = _said(own, files[own], "variant-of")
        texts = {_file_of(family): others[family]} if family in others and family != name else {}
        texts |= {file: _working(file, text, name) for file, text in files.items() if file != own}
        return derive_site({**texts, _file_of(name): files[own]})

    return derive


def _working(file: str, text: str, hold: str) -> str:
    """A station's description with one hold only; any other file as it is."""
    if not file.endswith(_STATION):
        return text
    data = read_document(file, text)[0].data
    if not isinstance(data, dict) or not isinstance(data.get("holds"), list):
        return text
    return flow({**data, "holds": [hold]})


def _said(file: str, text: str, key: str) -> str:
    data = read_document(file, text)[0].data
    named = data.get(key) if isinstance(data, dict) else None
    return named if isinstance(named, str) else ""


def explanation(was: Record, now: Record) -> Explanation:
    """What differs between two records of one station, and which edit of the inputs caused it."""
    found = compared(version_of(was, "was"), version_of(now, "now"))
    return Explanation(found.differences, found.edits, found.idle)
