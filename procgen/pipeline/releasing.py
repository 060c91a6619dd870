"""Release a station's manual, approve a release: everything that stands in the way, then what is written."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from procgen import release
from procgen.diagnostics import Finding, ProcgenError, Severity
from procgen.model.answer import Answer
from procgen.model.station import Station
from procgen.pipeline.checking import Checked
from procgen.pipeline.comparing import hash_of, sealed_differences
from procgen.pipeline.explaining import explanation
from procgen.pipeline.recording import record_of
from procgen.results.difference import DifferenceClass
from procgen.results.record import Record
from procgen.results.release import Approval, Chain, Release, Released


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a release is asked to say of itself. Dates are ISO 8601 texts; `expires` may be empty."""

    date: str
    effective: str
    author: str
    reason: str
    expires: str = ""


@dataclass(frozen=True, slots=True)
class Refused:
    """Why nothing was released: findings to mend, differences to answer, answers that answer nothing, and
    answers that nobody can have given.
    """

    findings: tuple[Finding, ...] = ()
    review: release.Review | None = None
    unfit: tuple[release.Unfit, ...] = ()


def chain_of(checked: Checked, station: str) -> Chain:
    """The chain of a station; an empty one where it has released nothing."""
    return checked.chains.get(station) or release.read_chain(station, {})


def released_record(released: Released) -> Record:
    """The record of a release. Raises `ProcgenError` where this version cannot read it."""
    try:
        return release.read_record(released.record)
    except release.RecordError as error:
        about = released.release
        raise ProcgenError(
            f"revision {about.number} of {about.station} cannot be read by this version: {error}"
        ) from error


def prepare_release(checked: Checked, station: Station, wanted: Wanted) -> release.Addition | Refused:
    """The release of a station's manual as its files say it now.

    Refused while anything found is unanswered, or a loosened difference from the last release is. Raises
    `ProcgenError` where what is asked for makes no sense: dates that contradict each other, or nothing new.
    """
    standing = tuple(one for one in checked.findings if _stands_in_the_way(one, checked, station.code))
    if standing:
        return Refused(standing)
    chain = chain_of(checked, station.code)
    refuse_dates(wanted)
    _refuse_older(chain, wanted)
    record = record_of(checked, station)
    text = release.record_text(record)
    if chain.last is not None and release.identity(text) == chain.last.release.identity:
        raise ProcgenError(
            f"nothing has changed since revision {chain.last.release.number}: no new one is due"
        )
    last = released_record(chain.last) if chain.last is not None else None
    review = review_of(checked.answers.get(chain.station, ()), chain, last, record)
    since = chain.last.release.date if chain.last is not None else ""
    unfit = release.unfit(review.given, wanted.author, wanted.date, since)
    if review.owing or review.idle or unfit:
        return Refused(review=review, unfit=unfit)
    about = Release(
        station=station.code,
        number=len(chain.releases) + 1,
        date=wanted.date,
        effective=wanted.effective,
        author=wanted.author,
        reason=wanted.reason,
        identity=release.identity(text),
        previous=release.previous_of(chain),
        expires=wanted.expires,
        answers=review.given,
        explained=explanation(last, record) if last is not None else None,
    )
    return release.release_added(chain, about, text)


def _stands_in_the_way(finding: Finding, checked: Checked, station: str) -> bool:
    """Whether a finding keeps a station from releasing: not advice, not another station's, and not that a
    temporary revision has run out, which a new release is the cure of.
    """
    folder = finding.place.file.partition("/")[0]
    elsewhere = folder != station and folder in {*checked.network.stations, *checked.chains}
    cured = finding.rule == release.EXPIRED_RULE
    return finding.severity is not Severity.ADVICE and not elsewhere and not cured


def refuse_dates(wanted: Wanted) -> None:
    """Raise `ProcgenError` where the dates of a release contradict each other."""
    if wanted.effective < wanted.date:
        raise ProcgenError(f"in force on {wanted.effective}, before the day of the release ({wanted.date})")
    if wanted.expires and wanted.expires < wanted.effective:
        raise ProcgenError(f"expires on {wanted.expires}, before it comes into force ({wanted.effective})")


def _refuse_older(chain: Chain, wanted: Wanted) -> None:
    last = chain.last.release if chain.last else None
    if last is not None and wanted.date < last.date:
        raise ProcgenError(f"dated {wanted.date}, before revision {last.number} of {last.date}")
    if last is not None and wanted.effective < last.effective:
        raise ProcgenError(
            f"in force on {wanted.effective}, before revision {last.number} that it takes the place of"
            f" ({last.effective})"
        )


def review_of(answers: Sequence[Answer], chain: Chain, last: Record | None, record: Record) -> release.Review:
    """What stands between a record and its release: what differs from the last and has no answer, and answers
    that answer nothing. `last` is the record of the chain's last release, None where there is none.
    """
    spent = [answer for one in chain.releases for answer in one.release.answers]
    found = sealed_differences(last, record) if last is not None else ()
    return release.review(found, answers, spent)


def prepare_approval(
    chain: Chain, number: int, by: str, date: str, remark: str, looked_at: str = ""
) -> release.Addition:
    """The approval of a release by a named person, with all that they accept by it.

    `looked_at` is the hash of the differences that they looked at, or its beginning; empty where they do not
    say. Raises `ProcgenError` where there is no such release, where its author approves it, where that
    person has approved it already, or where its differences are other ones than were looked at.
    """
    if not 1 <= number <= len(chain.releases):
        known = f"1 to {len(chain.releases)}" if chain.releases else "none"
        raise ProcgenError(f"{chain.station} has no revision {number} (revisions: {known})")
    released = chain.releases[number - 1]
    about = released.release
    if release.same_person(by, about.author):
        raise ProcgenError(f"{by} is the author of revision {number}: somebody else approves it")
    if any(release.same_person(one.by, by) for one in released.approvals):
        raise ProcgenError(f"{by} has approved revision {number} already")
    if date < about.date:
        raise ProcgenError(f"approved on {date}, before revision {number} was released ({about.date})")
    if about.expires and date > about.expires:
        raise ProcgenError(f"approved on {date}, after revision {number} has ended ({about.expires})")
    accepted, differences = _accepted(chain, number)
    if not differences.startswith(looked_at):
        raise ProcgenError(
            f"what was looked at is {looked_at}, and the differences of revision {number} are"
            f" {differences[:16] or 'none: it is the first'}: look again, and approve what is there"
        )
    approval = Approval(
        station=chain.station,
        number=number,
        release=release.sha256(released.text),
        by=by,
        date=date,
        accepted=accepted,
        remark=remark,
        differences=differences,
    )
    return release.approval_added(chain, approval)


def _accepted(chain: Chain, number: int) -> tuple[tuple[str, ...], str]:
    """The differences that owe a look or more, by name, and the hash of all."""
    if number == 1:
        return (), ""
    was, now = (released_record(chain.releases[n - 1]) for n in (number - 1, number))
    found = sealed_differences(was, now)
    names = tuple(one.identity for one, _ in found if one.classed is not DifferenceClass.WORDING)
    return names, hash_of(found, now)
