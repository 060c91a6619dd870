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


@dataclass(frozen=True, slots=True)
class Side:
    """A version, its revision number (0 for what is no release), and what reviewers said up to it.

    `accepted` is by difference: each acceptance with the number of the release that it was given for, the
    newest last. `sealed` is by difference and seal: acceptances that count only for exactly what they were
    given to. `due` is what an acceptance of a draft's difference must bind to for a release: its seal
    against the last release. `approved` names who approved the whole of it.
    """

    version: Version
    number: int = 0
    accepted: Mapping[str, tuple[tuple[int, Accepted], ...]] = field(default_factory=dict)
    sealed: Mapping[tuple[str, str], Accepted] = field(default_factory=dict)
    due: Mapping[str, str] = field(default_factory=dict)
    approved: tuple[str, ...] = ()


def draft_side(checked: Checked, station: Station, label: str) -> Side:
    """The draft, with what was accepted in the releases before it and in its answers.

    An acceptance given in a release counts no more for what has changed since the last one.
    """
    record = record_of(checked, station)
    chain = checked.chains.get(station.code)
    sealed = {(one.difference, one.seal): _accepted(one) for one in checked.answers.get(station.code, ())}
    if chain is None or chain.last is None:
        return Side(version_of(record, label), sealed=sealed)
    given = dict(_given(chain, len(chain.releases)))
    due: dict[str, str] = {}
    for one, seal in sealed_differences(released_record(chain.last), record):
        due[one.identity] = seal
        now = sealed.get((one.identity, seal))
        given.pop(one.identity, None)
        if now is not None:
            given[one.identity] = ((len(chain.releases) + 1, now),)
    return Side(version_of(record, label), 0, given, sealed, due)


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
        approved=tuple(f"{one.by} on {one.date}" for one in released.approvals),
    )


def _given(chain: Chain, number: int) -> Mapping[str, tuple[tuple[int, Accepted], ...]]:
    """What was accepted in the releases up to a number, by difference."""
    found: dict[str, tuple[tuple[int, Accepted], ...]] = {}
    for count, released in enumerate(chain.releases[:number], start=1):
        for answer in released.release.answers:
            found[answer.difference] = (*found.get(answer.difference, ()), (count, _accepted(answer)))
    return found


def _accepted(answer: Answer) -> Accepted:
    return Accepted(answer.by, answer.date, answer.reason)


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
    accepted: dict[str, Accepted] = {}
    for identity, seal in seals.items():
        # What an earlier release accepted is part of what is compared already.
        since = [one for number, one in now.accepted.get(identity, ()) if number > was.number]
        given = now.sealed.get((identity, seal)) or (since[-1] if since else None)
        if given is not None:
            accepted[identity] = given
    return Reviewed(
        comparison=comparison,
        hash=diff.difference_hash(comparison),
        seals={**seals, **{name: seal for name, seal in now.due.items() if name in seals}},
        accepted=accepted,
        owing=frozenset(one.identity for one in _owing(comparison, accepted, now)),
        approved=now.approved,
        answers=answers,
    )


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
