"""What a site says of a revision beside its content: document control."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from procgen.results.changes import Changes, Gate
from procgen.results.difference import Difference
from procgen.results.page import StationSite
from procgen.results.release import Released, Standing
from procgen.results.waived import Waived


@dataclass(frozen=True, slots=True)
class EffectivePage:
    """A page in the list of effective pages.

    `file` is its path in the site, `sha256` the hash of all that it shows of its own, and `since` the
    number of the first revision from which it has stood unchanged; 0 where no release has it. `applies`
    names the registrations that it is for; empty where it is for every aircraft of its type.
    """

    file: str
    title: str
    sha256: str
    since: int = 0
    applies: str = ""


def stable_folder(number: int) -> str:
    """The folder by which a revision can always be found, whichever is shown first: `r004`."""
    return f"r{number:03}"


@dataclass(frozen=True, slots=True)
class RevisionRow:
    """One line of the revision record. `folder` is where its pages are, below the station's."""

    released: Released
    standing: Standing
    folder: str

    @property
    def stable(self) -> str:
        """The folder by which it can always be found, below the station's."""
        return stable_folder(self.released.release.number)


@dataclass(frozen=True, slots=True)
class Edition:
    """A revision of one station's manual, or its draft, as a site shows it.

    `site` carries the revision's number, dates, author and reason. `folder` is where its pages are, below
    the station's: empty for the one that is shown first. `standing` is None for a draft that was not
    released. `revisions` are all releases, the oldest first; `has_draft` says whether there is a draft
    beside them. `until` is the day on which a later revision takes this one's place, where that is known.
    `successor` counts when this one ends, by then or by running out: a later one, or the one before again.
    `differences` are those from revision `against`: of a release from the one before it, of a draft from the
    one that is shown first. `first` says that there is none. `changes` are those from revision `against`,
    and then from each one before it, where they are shown; `gate` is what a draft still owes.
    """

    site: StationSite
    folder: str = ""
    standing: Standing | None = None
    expires: str = ""
    until: str = ""
    successor: RevisionRow | None = None
    identity: str = ""
    pages: tuple[EffectivePage, ...] = ()
    revisions: tuple[RevisionRow, ...] = ()
    has_draft: bool = False
    waived: tuple[Waived, ...] = ()
    differences: Sequence[Difference] = ()
    first: bool = True
    against: int = 0
    changes: tuple[Changes, ...] = ()
    gate: Gate | None = None

    @property
    def stable(self) -> str:
        """The folder by which a release can always be found, below the station's."""
        return stable_folder(self.site.station.revision.number)

    @property
    def hashes(self) -> Mapping[str, EffectivePage]:
        """The effective pages by their file."""
        return {page.file: page for page in self.pages}
