"""Releases: revisions of a station's manual that were given out, their approvals, and the chain they form."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from procgen.diagnostics import Finding
from procgen.model.answer import Answer
from procgen.results.difference import Difference, InputEdit


@dataclass(frozen=True, slots=True)
class Explanation:
    """What a release changed since the one before, as it was told when it was released.

    Each of the `differences` has its causes by the numbers of `edits`, those of the inputs; `idle` are the
    numbers of the edits that changed nothing that is published.
    """

    differences: tuple[Difference, ...] = ()
    edits: tuple[InputEdit, ...] = ()
    idle: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Release:
    """What a release says of itself, beside the record it gives out. Dates are ISO 8601 texts.

    `identity` is that of the record; `previous` the SHA-256 of the release before it, empty for the first.
    `expires` is the last day of a temporary revision, empty for one that stands until the next. `explained`
    is None in a first release, and in those from before releases kept it.
    """

    station: str
    number: int
    date: str
    effective: str
    author: str
    reason: str
    identity: str
    previous: str = ""
    expires: str = ""
    answers: tuple[Answer, ...] = ()
    explained: Explanation | None = None


@dataclass(frozen=True, slots=True)
class Approval:
    """Who approved a release, on which day; `release` is the SHA-256 of the file that was approved.

    `accepted` names the differences from the release before that were accepted with it, and `differences` is
    the hash of what they say, over the rules and the program that found them; empty for a first release.
    """

    station: str
    number: int
    release: str
    by: str
    date: str
    accepted: tuple[str, ...] = ()
    remark: str = ""
    differences: str = ""


@dataclass(frozen=True, slots=True)
class Released:
    """A release as it lies in the chain: its text, the text of its record, and its approvals in order."""

    release: Release
    text: str
    record: str
    approvals: tuple[Approval, ...] = ()

    @property
    def approved(self) -> bool:
        """Whether anybody has approved it."""
        return bool(self.approvals)

    @property
    def counts_from(self) -> str:
        """The day from which it counts: its own, or that of its first approval where that came later."""
        return max(self.release.effective, min((one.date for one in self.approvals), default=""))


class Standing(StrEnum):
    """How a revision stands on a day."""

    DRAFT = "draft"  # released, and not approved by anybody
    IN_FORCE = "in force"
    NOT_YET = "not yet in force"
    SUPERSEDED = "superseded"
    EXPIRED = "expired"


@dataclass(frozen=True, slots=True)
class ReleaseList:
    """The list that stands beside a station's releases: the SHA-256 of each file, by name.

    `coming` is the file that is being written, if any: it may be there already or not.
    """

    files: Mapping[str, str] = field(default_factory=dict)
    coming: tuple[str, str] | None = None


@dataclass(frozen=True, slots=True)
class Chain:
    """A station's releases in their order, and what is wrong with them.

    `listed` has settled what was coming. With findings, `releases` holds those that could be read, and
    nothing may be added.
    """

    station: str
    releases: tuple[Released, ...]
    listed: ReleaseList
    findings: tuple[Finding, ...] = ()

    @property
    def last(self) -> Released | None:
        """The newest release."""
        return self.releases[-1] if self.releases else None
