"""From a checked folder to what its site shows: every release as it was recorded, and the draft."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from procgen import release
from procgen.model.station import Revision, Station
from procgen.pipeline.checking import Checked
from procgen.pipeline.comparing import sealed_differences
from procgen.pipeline.recording import basis_of, record_of
from procgen.pipeline.releasing import chain_of, released_record
from procgen.release.pages import effective_pages, with_since
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
    rows = _rows(chain, on, first)
    pages = with_since([effective_pages(one.record.manual) for one in reads])
    released = [
        _released_edition(chain, reads, number, rows, pages[number - 1], draft is not None)
        for number in range(1, len(reads) + 1)
    ]
    if draft is not None:
        released.append(_draft_edition(draft, reads, rows, pages, first))
    return tuple(sorted(released, key=lambda one: one.folder != ""))


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


def _released_edition(
    chain: Chain,
    reads: Sequence[_Read],
    number: int,
    rows: tuple[RevisionRow, ...],
    pages: tuple[EffectivePage, ...],
    has_draft: bool,
) -> Edition:
    read, row = reads[number - 1], rows[number - 1]
    about = read.released.release
    revision = Revision(about.number, about.date, read.released.counts_from, about.author, about.reason)
    before = reads[number - 2].record if number > 1 else None
    return Edition(
        site=_stamped(read.record.manual, revision),
        folder=row.folder,
        standing=row.standing,
        expires=about.expires,
        until=_until(chain, number),
        successor=_successor(chain, number, rows),
        identity=about.identity,
        pages=pages,
        revisions=rows,
        has_draft=has_draft,
        waived=read.record.waived,
        differences=_differences(before, read.record),
        first=before is None,
        against=number - 1,
    )


def _draft_edition(
    record: Record,
    reads: Sequence[_Read],
    rows: tuple[RevisionRow, ...],
    pages: Sequence[tuple[EffectivePage, ...]],
    first: Released | None,
) -> Edition:
    """The draft, told against the revision that a reader finds first: that is what people work by."""
    site, against = record.manual, first.release.number if first is not None else 0
    if reads:
        site = _stamped(site, Revision(len(reads) + 1, "", "", "", ""))
    before = {page.file: page for page in pages[-1]} if pages else {}
    own = tuple(
        replace(page, since=before[page.file].since)
        if page.file in before and before[page.file].sha256 == page.sha256
        else page
        for page in effective_pages(record.manual)
    )
    return Edition(
        site=site,
        folder=DRAFT_FOLDER if reads else "",
        identity=release.identity(release.record_text(record)),
        pages=own,
        revisions=rows,
        has_draft=True,
        waived=record.waived,
        differences=_differences(reads[against - 1].record if against else None, record),
        first=not against,
        against=against,
    )


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


def _differences(was: Record | None, now: Record) -> tuple[Difference, ...]:
    return () if was is None else tuple(one for one, _ in sealed_differences(was, now))
