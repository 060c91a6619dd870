"""What a rule of the check says of itself; the same text in the terminal, on the site, in the docs."""

from __future__ import annotations

from dataclasses import dataclass

from procgen.diagnostics import Severity


@dataclass(frozen=True, slots=True)
class Edit:
    """A change to one file of the example stations: `find` stands once in it and is replaced by `put`.

    An empty `find` adds the file, which the example does not have.
    """

    file: str
    find: str
    put: str


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule. `failing` turns the clean example into one that the rule finds, `passing` is a change near
    to it that is in order.

    The finding points into the text that `failing` puts; where it points elsewhere, `points_at` is text
    that ends on the line it points at; it stands once in the file `points_in` (by default the edited one)
    after the edit. `also` names the rules that cannot help finding the failing example too.
    `failing_on` is the day by which the failing example is judged, where that counts.
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
    also: tuple[str, ...] = ()
    points_at: str = ""
    points_in: str = ""
    failing_on: str = ""
