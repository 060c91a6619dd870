"""From a checked folder to what its site shows: every release as it was recorded, and the draft."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from procgen import release
from procgen.model.station import Revision, Station
from procgen.pipeline.changing import Move, changes_since, draft_move, moves_of, only_of
from procgen.pipeline.checking import Checked
from procgen.pipeline.recording import basis_of, record_of
from procgen.pipeline.releasing import chain_of, released_record
from procgen.release.pages import effective_pages, with_since
from procgen.results.changes import Changes
from procgen.results.difference import Difference
from procgen.results.edition import Edition, EffectivePage, RevisionRow, stable_folder
from procgen.results.page import StationSite
from procgen.results.record import Record
from procgen.results.release import Chain, Released

DRAFT_FOLDER = "draft"


@dataclass(frozen=True, slots=True)
class _Read:
    """A release and its record."""

    released: Released
    record: Record


def editions_of(checked: Checked, station: Station, on: str) -> tuple[Edition, ...]:
    """What the site of a station shows on a day: first the revision that a reader finds first.

    That is the one in force; where none is, the newest release; without any release, the draft. The
    draft of a station with releases is shown beside them where its record differs from the last one's.
    Everything comes from records: that of a release from its file, that of the draft from its own text.
    """
    chain = chain_of(checked, station.code)
    reads = [_Read(one, released_record(one)) for one in chain.releases]
    draft = _draft(checked, station, reads[-1].record if reads else None)
    first = release.in_force(chain, on) or chain.last
    history = _History(
        reads=reads,
        rows=_rows(chain, on, first),
        pages=with_since([effective_pages(one.record.manual) for one in reads]),
        moves=moves_of(chain, [one.record for one in reads]),
        first=first.release.number if first is not None else 0,
    )
    found = [_released_edition(chain, history, n, draft is not None) for n in range(1, len(reads) + 1)]
    if draft is not None:
        move = None
        if reads:
            answers = checked.answers.get(station.code, ())
            move = draft_move(chain, reads[-1].record, draft, answers, f"{station.code}/answers.yaml")
        found.append(_draft_edition(draft, history, move))
    return tuple(sorted(found, key=lambda one: one.folder != ""))


@dataclass(frozen=True, slots=True)
class _History:
    """The releases, their rows and pages, what each changed, and the number of the one shown first."""

    reads: Sequence[_Read]
    rows: tuple[RevisionRow, ...]
    pages: Sequence[tuple[EffectivePage, ...]]
    moves: Sequence[Move]
    first: int


def _draft(checked: Checked, station: Station, last: Record | None) -> Record | None:
    """The record of what the files say now; None where it is that of the last release.

    The same files, rules, waivers and version of the program make the same record: it is not made again.
    """
    basis = basis_of(checked, station)
    if last is not None and basis == replace(last, manual=basis.manual):
        return None
    text = release.record_text(record_of(checked, station))
    if last is not None and release.identity(text) == release.identity(release.record_text(last)):
        return None
    return release.read_record(text)


def _rows(chain: Chain, on: str, first: Released | None) -> tuple[RevisionRow, ...]:
    standings = release.standings(chain, on)
    return tuple(
        RevisionRow(
            one, standings[one.release.number], "" if one is first else stable_folder(one.release.number)
        )
        for one in chain.releases
    )


def _released_edition(chain: Chain, history: _History, number: int, has_draft: bool) -> Edition:
    read, row = history.reads[number - 1], history.rows[number - 1]
    about = read.released.release
    revision = Revision(about.number, about.date, read.released.counts_from, about.author, about.reason)
    changes = tuple(_changes(history, number))
    return Edition(
        site=_stamped(read.record.manual, revision),
        folder=row.folder,
        standing=row.standing,
        expires=about.expires,
        until=_until(chain, number),
        successor=_successor(chain, number, history.rows),
        identity=about.identity,
        pages=history.pages[number - 1],
        revisions=history.rows,
        has_draft=has_draft,
        waived=read.record.waived,
        differences=_told_first(changes),
        first=number == 1,
        against=number - 1,
        changes=changes,
    )


def _changes(history: _History, number: int) -> Iterator[Changes]:
    """What changed since the revision before; of what is no longer superseded, since every other one too."""
    if number > 1:
        yield only_of(history.moves[number - 2], number - 1)
    if number >= history.first:
        now = history.reads[number - 1].record
        for since in range(number - 2, 0, -1):
            was = history.reads[since - 1].record
            yield changes_since(since, was, now, history.moves[since - 1 : number - 1])


def _draft_edition(record: Record, history: _History, move: Move | None) -> Edition:
    """The draft, told against the revision that a reader finds first: that is what people work by."""
    site, against, count = record.manual, history.first, len(history.reads)
    if count:
        site = _stamped(site, Revision(count + 1, "", "", "", ""))
    before = {page.file: page for page in history.pages[-1]} if history.pages else {}
    own = tuple(
        replace(page, since=before[page.file].since)
        if page.file in before and before[page.file].sha256 == page.sha256
        else page
        for page in effective_pages(record.manual)
    )
    changes = tuple(_draft_changes(record, history, move))
    return Edition(
        site=site,
        folder=DRAFT_FOLDER if count else "",
        identity=release.identity(release.record_text(record)),
        pages=own,
        revisions=history.rows,
        has_draft=True,
        waived=record.waived,
        differences=_told_first(changes),
        first=not against,
        against=against,
        changes=changes,
        gate=move.gate if move else None,
    )


def _draft_changes(record: Record, history: _History, move: Move | None) -> Iterator[Changes]:
    """What the draft changes since the revision shown first, and then since every other one."""
    if move is None:
        return
    count = len(history.reads)
    for since in sorted(range(1, count + 1), key=lambda one: (one != history.first, -one)):
        if since == count:
            yield only_of(move, since)
        else:
            moves = (*history.moves[since - 1 :], move)
            yield changes_since(since, history.reads[since - 1].record, record, moves)


def _told_first(changes: Sequence[Changes]) -> tuple[Difference, ...]:
    return tuple(one.difference for one in changes[0].changed) if changes else ()


def _stamped(site: StationSite, revision: Revision) -> StationSite:
    return replace(site, station=replace(site.station, revision=revision))


def _until(chain: Chain, number: int) -> str:
    """The day on which a later approved revision takes the place of this one; empty where none does."""
    later = [one.counts_from for one in chain.releases[number:] if one.approved and not one.release.expires]
    return min(later, default="")


def _successor(chain: Chain, number: int, rows: tuple[RevisionRow, ...]) -> RevisionRow | None:
    """The revision in force on the first day on which this one is not any more; None where it has no end."""
    until, expires = _until(chain, number), chain.releases[number - 1].release.expires
    days = [until] if until else []
    if expires and expires != date.max.isoformat():
        days.append((date.fromisoformat(expires) + timedelta(days=1)).isoformat())
    following = release.in_force(chain, min(days)) if days else None
    return next((row for row in rows if row.released is following and following is not None), None)
