"""Document control as every page shows it: which revision this is, how it stands, what else there is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from procgen.results.edition import Edition, EffectivePage
from procgen.results.page import StationSite
from procgen.results.release import Standing


@dataclass(frozen=True, slots=True)
class Version:
    """A revision to go to: `href` leads there from the page it is shown on."""

    label: str
    href: str


@dataclass(frozen=True, slots=True)
class Control:
    """What one page shows of its revision.

    `mark` says in a sentence what a reader must know before using the page, `short` in a word or two; both
    are empty for a revision that is in force for good. `page` is its line in the list of effective pages.
    `valid_from`, `until` and `expires` let a script judge by the reader's own clock. `root` leads from the
    page to the home of all stations, `current` to the revision in force where that is another one, and
    `successor` to the one that counts when this one has ended.
    """

    revision: str
    mark: str
    short: str
    valid_from: str
    until: str
    expires: str
    page: EffectivePage | None
    versions: tuple[Version, ...]
    root: str
    current: Version | None = None
    successor: Version | None = None


def as_edition(shown: StationSite | Edition) -> Edition:
    """A site that comes without its edition is a draft."""
    return shown if isinstance(shown, Edition) else Edition(shown)


def control_of(edition: Edition, file: str) -> Control:
    """The control of one page; `file` is its path in the edition, as `holds/SR-AFT.html`."""
    revision = edition.site.station.revision
    depth = file.count("/") + (edition.folder != "")
    short, mark = _mark(edition, file)
    return Control(
        revision=_revision_words(edition),
        mark=mark,
        short=short,
        valid_from=revision.effective if edition.standing is not None else "",
        until=edition.until,
        expires=edition.expires,
        page=_listed(edition, file),
        versions=tuple(_versions(edition, "../" * depth)),
        root="../" * (depth + 1),
        current=_current(edition, "../" * depth),
        successor=_successor(edition, "../" * depth),
    )


def _current(edition: Edition, up: str) -> Version | None:
    if edition.standing is Standing.IN_FORCE:
        return None
    row = next((row for row in edition.revisions if row.standing is Standing.IN_FORCE), None)
    return Version(f"go to revision {row.released.release.number}", f"{up}index.html") if row else None


def _successor(edition: Edition, up: str) -> Version | None:
    row = edition.successor
    if row is None:
        return None
    folder = f"{row.folder}/" if row.folder else ""
    return Version(f"go to revision {row.released.release.number}", f"{up}{folder}index.html")


def _listed(edition: Edition, file: str) -> EffectivePage | None:
    """A page's line in the list of pages; that of its matrix for a short procedure, which belongs to it."""
    kind, *below = file.split("/")
    matrix = f"{kind}/{below[0]}.html" if len(below) > 1 else file
    return edition.hashes.get(matrix)


def _touches(edition: Edition, file: str) -> str:
    """Whether a temporary revision changes a page; empty for pages that are not in the list of pages."""
    page = _listed(edition, file)
    if page is None or not page.since:
        return ""
    if page.since == edition.site.station.revision.number:
        return " It changes this page."
    return f" It leaves this page as it stands since revision {page.since}."


def _revision_words(edition: Edition) -> str:
    revision = edition.site.station.revision
    if not revision.date:
        return f"Draft of revision {revision.number}" if revision.number else "Draft"
    words = f"Revision {revision.number} of {revision.date}, in force from {revision.effective}"
    return f"{words} to {edition.expires}" if edition.expires else words


def _mark(edition: Edition, file: str) -> tuple[str, str]:
    number = edition.site.station.revision.number
    current = next((row for row in edition.revisions if row.standing is Standing.IN_FORCE), None)
    instead = f" Revision {current.released.release.number} is in force." if current else ""
    match edition.standing:
        case None:
            return "Draft", f"Draft: this has not been released. Do not work by it.{instead}"
        case Standing.DRAFT:
            return "Draft", f"Draft: revision {number} is not approved. Do not work by it.{instead}"
        case Standing.SUPERSEDED:
            return "Superseded", f"Superseded: do not work by this page.{instead}"
        case Standing.NOT_YET:
            day = edition.site.station.revision.effective
            return "Not yet in force", f"Not yet in force: revision {number} counts from {day}.{instead}"
        case Standing.EXPIRED:
            return "Expired", f"Expired: this temporary revision ended on {edition.expires}.{instead}"
        case Standing.IN_FORCE:
            if edition.expires:
                until = f"until {edition.expires}"
                counts = f"Temporary revision: it counts {until}, that day included."
                return f"Temporary {until}", counts + _touches(edition, file)
            return "", ""


def _versions(edition: Edition, up: str) -> Iterator[Version]:
    """The other revisions, the newest first. Each has an index page, and that is where the link goes."""
    if edition.has_draft and edition.standing is not None:
        yield Version("draft, not released", f"{up}draft/index.html")
    for row in reversed(edition.revisions):
        if edition.standing is not None and row.folder == edition.folder:
            continue
        about = row.released.release
        folder = f"{row.folder}/" if row.folder else ""
        yield Version(f"revision {about.number} of {about.date}: {row.standing}", f"{up}{folder}index.html")
