"""What reviewers say to differences from the last release."""

from __future__ import annotations

from dataclasses import dataclass, field

from procgen.diagnostics import NOWHERE, Place


@dataclass(frozen=True, slots=True)
class Answer:
    """The acceptance of one difference: who, on which day (ISO 8601), and why.

    `difference` is the difference's name; `seal` binds the answer to exactly what it was given to.
    """

    difference: str
    seal: str
    by: str
    date: str
    reason: str
    place: Place = field(default=NOWHERE, compare=False)
