"""Findings: what the check says, how grave it is, and where it points.

A finding is a value. Stages collect findings and go on; nothing is raised for an author's mistake.
Only broken surroundings (a folder that cannot be read, a builder that fails) raise `ProcgenError`.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

Route = tuple[str | int, ...]
"""Keys and list indexes that lead from the root of a document to a value."""


class Severity(StrEnum):
    """How grave a finding is, and what the writer owes."""

    ERROR = "error"  # cannot be published
    WARNING = "warning"  # must be answered before a release
    ADVICE = "advice"  # worth a look


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of text. Lines and columns count from 1; the end column is exclusive."""

    line: int
    column: int
    end_line: int
    end_column: int


@dataclass(frozen=True, slots=True)
class Place:
    """Where something was written: a file and a route, made concrete only when printed.

    `on_key` points at the key that ends the route instead of at its value. `span` is given where no
    route can lead (broken syntax, the second of two equal keys).
    """

    file: str
    route: Route = ()
    on_key: bool = False
    span: Span | None = None

    def child(self, *route: str | int) -> Place:
        """The place further down the same document."""
        return Place(self.file, self.route + route)

    def key(self) -> Place:
        """The same route, pointing at its key."""
        return Place(self.file, self.route, on_key=True, span=self.span)


NOWHERE = Place("")
"""The place of things that no file says: generated steps without a cause, records made in tests."""


@dataclass(frozen=True, slots=True)
class Related:
    """A second place that a finding speaks of: what the offending text contradicts."""

    place: Place
    message: str


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing wrong.

    `subject` names what it is about, by kind: `step` (number from 1), `item`, `bay`, `unit`,
    `position`, `hold`, `procedure`. `suggestion` is a way out, in the writer's words.
    """

    rule: str
    message: str
    place: Place
    severity: Severity = Severity.ERROR
    suggestion: str = ""
    related: tuple[Related, ...] = ()
    subject: tuple[tuple[str, str], ...] = field(default=())


class ProcgenError(Exception):
    """The surroundings are broken; shown as one line, exit status 2."""
