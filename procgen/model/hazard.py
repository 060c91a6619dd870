"""The hazard list and the check list: data from which warnings and checks follow by matching."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from procgen.diagnostics import NOWHERE, Place
from procgen.model.words import SignalWord


class Scope(StrEnum):
    """Where a warning stands: at the head of the procedure, of the section, or right before the step."""

    PROCEDURE = "procedure"
    SECTION = "section"
    STEP = "step"


class Frequency(StrEnum):
    """How often a check is made: once, for each unit, or anew right before each step that needs it."""

    ONCE = "once"
    EACH_UNIT = "each-unit"
    EACH_STEP = "each-step"


@dataclass(frozen=True, slots=True)
class Match:
    """Which steps something comes with. Empty sets match everything; all given sets must match.

    `verbs`: the verbs of the step form (`drive`, `raise`, `open` ...). `kinds`: what the object is:
    a restraint kind (`lock`, `net` ...), `door`, `panel`, a control kind. `reached_from`: `inside` or
    `outside`, for hand actions. `operations`: loading or unloading. `conditions`: the names of checks.
    """

    verbs: frozenset[str]
    kinds: frozenset[str] = frozenset()
    reached_from: frozenset[str] = frozenset()
    operations: frozenset[str] = frozenset()
    conditions: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class RequiredCheck:
    """A check that must have been made before the first step that `before` matches.

    With `after`, it must also come after every step that `after` matches (the last look before closing).
    For `each-unit`, it is made for each unit before the first step of that unit that `before` matches.
    For `each-step`, it is made before every step that `before` matches, with nothing done in between.
    """

    condition: str
    before: Match
    after: Match | None = None
    frequency: Frequency = Frequency.ONCE
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Hazard:
    """One hazard: the steps it comes with, the signal word and text of its warning, its checks.

    The text is in three parts: what the hazard is, what it does to you, how to avoid it.
    `source` is the public document it was drawn from, or says that it is common practice.
    `several_doors`: only where a procedure opens more than one door of the hold.
    """

    name: str
    title: str
    signal: SignalWord
    scope: Scope
    comes_with: tuple[Match, ...]
    hazard: str
    consequence: str
    avoid: str
    checks: tuple[RequiredCheck, ...]
    reports: tuple[str, ...]
    source: str
    place: Place = field(default=NOWHERE, compare=False)
    several_doors: bool = False


@dataclass(frozen=True, slots=True)
class CheckPhrase:
    """A named check in words: what to do, what it looks like when done, what to do if not so."""

    name: str
    text: str
    done_when: str
    if_not: str
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class HazardList:
    """All hazards, the checks they name and the reports they ask for, by name."""

    hazards: Mapping[str, Hazard]
    checks: Mapping[str, CheckPhrase]
    reports: Mapping[str, CheckPhrase]
