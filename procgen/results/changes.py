"""What changed since an older revision of a station's manual, and how: revision by revision."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from procgen.model.answer import Answer
from procgen.results.difference import Accepted, Difference, DifferenceClass, InputEdit


@dataclass(frozen=True, slots=True)
class Part:
    """One revision's part in a difference.

    `revision` is its number, 0 for the draft. `difference` is as it differs from the revision before it, with
    its causes by the numbers of `edits`; `recorded` is False for a release that kept no causes.

    `accepted` are the acceptances of this very difference, `looked` the approvals of the whole that it was
    part of. `line` is what accepts it in the station's answers, empty where nothing is owed; `stale` an
    answer that was given to another state of it.
    """

    revision: int
    difference: Difference
    edits: Mapping[int, InputEdit] = field(default_factory=dict)
    recorded: bool = True
    accepted: tuple[Accepted, ...] = ()
    looked: tuple[Accepted, ...] = ()
    line: str = ""
    stale: Answer | None = None

    @property
    def unanswered(self) -> bool:
        """Whether it owes a named acceptance that nobody has given."""
        return not self.accepted and self.difference.classed is DifferenceClass.LOOSENED


@dataclass(frozen=True, slots=True)
class Changed:
    """A difference from an older revision, and the parts that the revisions since have in it, oldest first.

    There is no part where no single revision shows the difference under its identity.
    """

    difference: Difference
    parts: tuple[Part, ...]


@dataclass(frozen=True, slots=True)
class Changes:
    """All that differs from revision `since`, the gravest first.

    `idle` are the edits since then that changed nothing that is published.
    """

    since: int
    changed: tuple[Changed, ...]
    idle: tuple[InputEdit, ...] = ()


@dataclass(frozen=True, slots=True)
class Gate:
    """What stands between a draft and its release after revision `last`.

    `file` is where answers go. `given` are the answers in it that count for the draft, `owed` the lines that
    are missing, `idle` the answers that answer no difference. `hash` stands for all differences; an approval
    can be bound to it.
    """

    last: int
    file: str
    hash: str
    given: tuple[Answer, ...] = ()
    owed: tuple[str, ...] = ()
    idle: tuple[Answer, ...] = ()
