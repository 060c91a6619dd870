"""From two versions of a station's manual to their differences, with causes and acceptances."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace

from procgen import diff
from procgen.diagnostics import ProcgenError
from procgen.model.station import Station
from procgen.pipeline.checking import Checked
from procgen.pipeline.deriving import derive_site
from procgen.pipeline.recording import record_of
from procgen.results.difference import Accepted, Comparison, Difference, Reviewed, Version
from procgen.results.page import StationSite
from procgen.results.record import Record

_HOLDS = "fleet/holds/"


@dataclass(frozen=True, slots=True)
class Side:
    """A version with the answers that were given in it: (difference, seal) to who accepted it.

    `approved` says that somebody approved the whole of it, and who.
    """

    version: Version
    accepted: Mapping[tuple[str, str], Accepted] = field(default_factory=dict)
    approved: tuple[str, ...] = ()


def version_of(record: Record, label: str) -> Version:
    """What a record says, to be compared."""
    inputs = {name: one.text for name, one in record.inputs.items()}
    return Version(label, record.manual, inputs, f"{record.made_by} {record.rules}")


def draft_of(checked: Checked, station: Station, label: str) -> Version:
    """A station's manual as its files say it now."""
    return version_of(record_of(checked, station), label)


def only_hold(version: Version, name: str) -> Version:
    """One hold of a version. Raises `ProcgenError` where the station does not work it."""
    found = tuple(one for one in version.site.holds if one.hold.name == name)
    if not found:
        known = ", ".join(one.hold.name for one in version.site.holds)
        raise ProcgenError(f"{version.label} has no hold {name} (holds: {known})")
    site = replace(version.site, holds=found)
    return replace(version, label=f"{version.label}, {name}", site=site, hold=name)


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


def reviewed(was: Version, side: Side, answers: str = "") -> Reviewed:
    """The comparison of an older version with a newer one, and what reviewers said to it."""
    comparison = compared(was, side.version)
    accepted = _accepted_in(comparison, side)
    rules = side.version.rule_set
    return Reviewed(
        comparison=comparison,
        hash=diff.difference_hash(comparison),
        seals={one.identity: diff.seal(one, rules) for one in comparison.differences},
        accepted=accepted,
        owing=frozenset(one.identity for one in _owing(comparison, accepted, side)),
        approved=side.approved,
        answers=answers,
    )


def _accepted_in(comparison: Comparison, side: Side) -> Mapping[str, Accepted]:
    """Who accepted which difference, by its identity: answers count only for what they were given to."""
    found: dict[str, Accepted] = {}
    for one in comparison.differences:
        given = side.accepted.get((one.identity, diff.seal(one, comparison.now.rule_set)))
        if given is not None:
            found[one.identity] = given
    return found


def _owing(comparison: Comparison, accepted: Mapping[str, Accepted], side: Side) -> Sequence[Difference]:
    """The differences for which somebody still owes something.

    A loosened one needs its own acceptance; the others that owe a look are settled by whoever approved the
    whole, or by an acceptance of their own.
    """
    return tuple(
        one
        for one in comparison.differences
        if one.identity not in accepted and diff.owes(one.classed, approved=bool(side.approved))
    )
