"""What differs between two versions of a station's manual, told by meaning."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction

from procgen.diagnostics import NOWHERE, Place, Route
from procgen.results.page import StationSite
from procgen.units import Quantity


class DifferenceClass(StrEnum):
    """How grave a difference is; what the reviewer owes follows from it. The gravest comes first."""

    LOOSENED = "loosened"
    TIGHTENED = "tightened"
    CHANGED = "changed"
    WORDING = "wording"

    @property
    def owes(self) -> str:
        """What the reviewer owes, in words."""
        return _OWED[self]


_OWED = {
    DifferenceClass.LOOSENED: "a named acceptance with a reason",
    DifferenceClass.TIGHTENED: "a look, and a notice to loaders",
    DifferenceClass.CHANGED: "a look",
    DifferenceClass.WORDING: "nothing",
}


class DifferenceKind(StrEnum):
    """What happened to the thing."""

    CHANGED = "changed"
    ADDED = "added"
    REMOVED = "removed"
    MOVED = "moved"
    RENAMED = "renamed"


@dataclass(frozen=True, slots=True)
class Version:
    """One of the two things compared.

    `label` names it for people (“K1B revision 2”). `site` is what is published, `inputs` the texts it was
    derived from, by file. `rule_set` identifies the rules, hazards and program that derived it. `hold` names
    the only hold that is compared; it is empty for all of them.
    """

    label: str
    site: StationSite
    inputs: Mapping[str, str] = field(default_factory=dict)
    rule_set: str = ""
    hold: str = ""


@dataclass(frozen=True, slots=True)
class Side:
    """One side of a difference: what stands there, and where.

    `text` is it in words. `place` is where in the inputs it was written, NOWHERE for what is derived.
    `step` is the number of the step on its page, 0 where it is none.
    """

    text: str
    place: Place = field(default=NOWHERE, compare=False)
    step: int = 0


@dataclass(frozen=True, slots=True)
class NumberChange:
    """A number that rose or fell. `change` is in the unit of now, `share` part of what was (from 0: None)."""

    was: Quantity
    now: Quantity

    @property
    def change(self) -> Quantity:
        """What was added; below zero where it fell."""
        unit = self.now.unit
        return Quantity((self.now.si - self.was.si) / unit.factor, unit)

    @property
    def share(self) -> Fraction | None:
        """The change as a part of what was."""
        return (self.now.si - self.was.si) / abs(self.was.si) if self.was.si else None


class EditKind(StrEnum):
    """What was done to an input."""

    CHANGED = "changed"
    ADDED = "added"
    REMOVED = "removed"
    RENAMED = "renamed"
    REORDERED = "reordered"


@dataclass(frozen=True, slots=True)
class EditPlace:
    """One stretch of an input that an edit touches; lines count from 1, 0 where that side has none.

    `was_file` is the older version's file where that is another than `file`, else empty.
    """

    file: str
    route: Route
    was_line: int
    now_line: int
    was: str
    now: str
    was_file: str = ""

    @property
    def files(self) -> tuple[str, ...]:
        """The file, or both where each side has its own."""
        return (self.was_file, self.file) if self.was_file else (self.file,)


@dataclass(frozen=True, slots=True)
class InputEdit:
    """One edit of the inputs by meaning: a value, an entry, an order, or a name throughout."""

    number: int
    kind: EditKind
    places: tuple[EditPlace, ...]

    @property
    def first(self) -> EditPlace:
        """Where it is best looked up."""
        return self.places[0]


class CauseKind(StrEnum):
    """Where a difference comes from."""

    INPUT = "input"
    PROGRAM = "program"
    TOGETHER = "together"
    """Several edits only together."""
    UNKNOWN = "unknown"
    """Some of the edits, or none: the rules are the same, and no edit could be told from the others."""


@dataclass(frozen=True, slots=True)
class Cause:
    """What made a difference: edits of the inputs by their number, or the program and its rules."""

    kind: CauseKind
    edits: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Anchor:
    """Where a page shows a difference.

    `page` is `hold`, `procedure` or `station`; `name` the hold's or procedure's, or `station`; `element`
    what of it. Of a procedure: `step:17`, `after:16` for what went from behind step 16 (0: before the
    first), `block:B`, `unit:11L`, `warning:NAME`, `recovery`. Of a hold: `limit:11L.AKE`,
    `restraints:lock-41`, `positions:11L`, `zones:NAME`, `tables:missing`, `figures:NAME`, `pages:NAME`,
    `out-of-service:ITEM-FAILURE` ... Empty for the whole page.
    """

    page: str
    name: str
    element: str


@dataclass(frozen=True, slots=True)
class Difference:
    """One difference.

    `identity` is a readable path that stays the same through unrelated edits; no two differences of one
    comparison share it. `subject` says in words what differs, `why` why it has its class. Added: `was` is
    None. Removed: `now` is None. `hold` and `page` are empty where it concerns the whole station or hold.
    """

    identity: str
    kind: DifferenceKind
    classed: DifferenceClass
    subject: str
    why: str
    was: Side | None
    now: Side | None
    number: NumberChange | None = None
    hold: str = ""
    page: str = ""
    anchors: tuple[Anchor, ...] = ()
    causes: tuple[Cause, ...] = ()

    @property
    def owes(self) -> str:
        """What the reviewer owes for it."""
        return self.classed.owes


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two versions and all that differs, the gravest first.

    `edits` are those of the inputs; `idle` the numbers of those that changed nothing that is published.
    """

    was: Version
    now: Version
    differences: tuple[Difference, ...]
    edits: tuple[InputEdit, ...] = ()
    idle: tuple[int, ...] = ()

    def count(self, classed: DifferenceClass) -> int:
        """How many differences of a class."""
        return sum(one.classed is classed for one in self.differences)

    @property
    def owed(self) -> bool:
        """Whether anybody owes anything for what differs."""
        return any(one.classed is not DifferenceClass.WORDING for one in self.differences)


@dataclass(frozen=True, slots=True)
class Accepted:
    """Who accepted a difference, on which day (ISO 8601), and why.

    `revision` is the release that it was given for; 0 for a draft's.
    """

    by: str
    date: str
    reason: str
    revision: int = 0


@dataclass(frozen=True, slots=True)
class Reviewed:
    """A comparison and what reviewers have said to it.

    `accepted` is by the differences' identities, the newest last, and so is `looked`: the approvals of
    releases that they were part of. `seals` is what an acceptance of each binds to, `owing` names those for
    which somebody still owes something. `hash` stands for all of them. `approved` names who approved the
    newer version as a whole, with the day; `answers` is the file that takes acceptances,
    empty where no release comes of the comparison: of two stations, or of two holds.
    """

    comparison: Comparison
    hash: str
    seals: Mapping[str, str]
    accepted: Mapping[str, tuple[Accepted, ...]]
    owing: frozenset[str]
    approved: tuple[str, ...] = ()
    answers: str = ""
    looked: Mapping[str, tuple[Accepted, ...]] = field(default_factory=dict)
