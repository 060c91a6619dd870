"""What a rule of the check says of itself; the same text in the terminal, on the site, in the docs."""

from __future__ import annotations

from dataclasses import dataclass

from procgen.diagnostics import Severity


@dataclass(frozen=True, slots=True)
class Edit:
    """A change to one file of the example stations: `find` stands once in it and is replaced by `put`."""

    file: str
    find: str
    put: str


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule. `failing` turns the clean example into one that the rule finds (and `line` text is where
    it points); `passing` is a change near to it that is in order.
    """

    name: str
    family: str
    severity: Severity
    summary: str
    looks_for: str
    why: str
    mend: str
    source: str
    failing: Edit
    passing: Edit
