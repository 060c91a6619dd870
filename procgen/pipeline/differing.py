"""From two versions of a station's manual to their differences, with causes and acceptances."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from procgen import diff
from procgen.diagnostics import ProcgenError
from procgen.model.answer import Answer
from procgen.model.station import Station
from procgen.pipeline.checking import Checked
from procgen.pipeline.comparing import sealed_differences
from procgen.pipeline.explaining import compared, version_of
from procgen.pipeline.recording import record_of
from procgen.pipeline.releasing import released_record
from procgen.results.difference import Accepted, Comparison, Difference, Reviewed, Version
from procgen.results.release import Chain

Given = Mapping[str, tuple[Accepted, ...]]
"""What was said to differences, by their identity, each with the release it was said for; the newest last."""


@dataclass(frozen=True, slots=True)
class Side:
    """A version, its revision number (0 for what is no release), and what reviewers said up to it.

    `accepted` are acceptances of single differences, `looked` approvals of releases that they were part of.
    `sealed` is by difference and seal: acceptances that count only for exactly what they were given to.
    `due` is what an acceptance of a draft's difference must bind to for a release: its seal against the last
    release. `approved` names who approved the whole of it.
    """

    version: Version
    number: int = 0
    accepted: Given = field(default_factory=dict)
    looked: Given = field(default_factory=dict)
    sealed: Mapping[tuple[str, str], Accepted] = field(default_factory=dict)
    due: Mapping[str, str] = field(default_factory=dict)
    approved: tuple[str, ...] = ()


def draft_side(checked: Checked, station: Station, label: str, *, anew: bool = False) -> Side:
    """The draft, with what was said in the releases before it and in its answers.

    What was said in a release counts no more for what has changed since the last one. Unless derived
    `anew`, what takes long comes from the last release where it follows from the same (see `record_of`).
    """
    chain = checked.chains.get(station.code)
    last = released_record(chain.last) if chain is not None and chain.last is not None else None
    record = record_of(checked, station, None if anew else last)
    sealed = {(one.difference, one.seal): _accepted(one, 0) for one in checked.answers.get(station.code, ())}
    if chain is None or last is None:
        return Side(version_of(record, label), sealed=sealed)
    count = len(chain.releases)
    due = {one.identity: seal for one, seal in sealed_differences(last, record)}
    accepted = {name: given for name, given in _given(chain, count).items() if name not in due}
    looked = {name: given for name, given in _looked(chain, count).items() if name not in due}
    now = {name: (sealed[name, seal],) for name, seal in due.items() if (name, seal) in sealed}
    return Side(version_of(record, label), 0, {**accepted, **now}, looked, sealed, due)


def released_side(chain: Chain, number: int) -> Side:
    """A release with what was accepted up to it, and who approved it.

    Raises `ProcgenError` where there is no such release, or where this version cannot read it.
    """
    if not 1 <= number <= len(chain.releases):
        known = f"1 to {len(chain.releases)}" if chain.releases else "none"
        raise ProcgenError(f"{chain.station} has no revision {number} (revisions: {known})")
    released = chain.releases[number - 1]
    return Side(
        version=version_of(released_record(released), f"{chain.station} revision {number}"),
        number=number,
        accepted=_given(chain, number),
        looked=_looked(chain, number),
        approved=tuple(f"{one.by} on {one.date}" for one in released.approvals),
    )


def _given(chain: Chain, number: int) -> Given:
    """What was accepted in the releases up to a number."""
    found: dict[str, tuple[Accepted, ...]] = {}
    for released in chain.releases[:number]:
        for answer in released.release.answers:
            one = _accepted(answer, released.release.number)
            found[answer.difference] = (*found.get(answer.difference, ()), one)
    return found


def _looked(chain: Chain, number: int) -> Given:
    """The approvals of the releases up to a number, by the differences that they name.

    They count no more for what a later release, that nobody has approved, has changed or may have.
    """
    found: dict[str, tuple[Accepted, ...]] = {}
    for released in chain.releases[:number]:
        told = released.release.explained
        if not released.approved:
            again = [one.identity for one in told.differences] if told else list(found)
            found = {name: said for name, said in found.items() if name not in again}
        for one in released.approvals:
            for name in one.accepted:
                said = Accepted(one.by, one.date, one.remark, one.number)
                found[name] = (*found.get(name, ()), said)
    return found


def _accepted(answer: Answer, revision: int) -> Accepted:
    return Accepted(answer.by, answer.date, answer.reason, revision)


def only_hold(version: Version, name: str) -> Version:
    """One hold of a version. Raises `ProcgenError` where the station does not work it."""
    found = tuple(one for one in version.site.holds if one.hold.name == name)
    if not found:
        known = ", ".join(one.hold.name for one in version.site.holds)
        raise ProcgenError(f"{version.label} has no hold {name} (holds: {known})")
    site = replace(version.site, holds=found)
    return replace(version, label=f"{version.label}, {name}", site=site, hold=name)


def reviewed(was: Side, now: Side, answers: str = "") -> Reviewed:
    """The comparison of an older version with a newer one, and what reviewers said to it."""
    comparison = compared(was.version, now.version)
    seals = {one.identity: diff.seal(one, now.version.rule_set) for one in comparison.differences}
    accepted: dict[str, tuple[Accepted, ...]] = {}
    looked: dict[str, tuple[Accepted, ...]] = {}
    for identity, seal in seals.items():
        given = _since(was, now.accepted.get(identity, ()))
        sealed = now.sealed.get((identity, seal))
        if sealed is not None and sealed not in [replace(one, revision=0) for one in given]:
            given = (*given, sealed)
        approvals = _since(was, now.looked.get(identity, ()))
        if given:
            accepted[identity] = given
        if approvals:
            looked[identity] = approvals
    return Reviewed(
        comparison=comparison,
        hash=diff.difference_hash(comparison),
        seals={**seals, **{name: seal for name, seal in now.due.items() if name in seals}},
        accepted=accepted,
        owing=frozenset(one.identity for one in _owing(comparison, accepted, looked, now)),
        approved=now.approved,
        answers=answers,
        looked=looked,
    )


def _since(was: Side, said: Sequence[Accepted]) -> tuple[Accepted, ...]:
    """What was said after the older version: what an earlier release accepted is part of it already."""
    return tuple(one for one in said if not one.revision or one.revision > was.number)


def _owing(
    comparison: Comparison,
    accepted: Mapping[str, Sequence[Accepted]],
    looked: Mapping[str, Sequence[Accepted]],
    side: Side,
) -> Sequence[Difference]:
    """The differences for which somebody still owes something.

    A loosened one needs its own acceptance; the others that owe a look are settled by whoever approved the
    whole or a release that they were part of, or by an acceptance of their own.
    """
    return tuple(
        one
        for one in comparison.differences
        if one.identity not in accepted
        and diff.owes(one.classed, approved=bool(side.approved or one.identity in looked))
    )
