"""Waivers: a writer's answer to a finding that is to stand for a while."""

from __future__ import annotations

from dataclasses import dataclass, field

from procgen.diagnostics import NOWHERE, Place


@dataclass(frozen=True, slots=True)
class Waiver:
    """One rule waived, for a reason, until a day (ISO 8601 text, that day included).

    `over` is the mapping that it stands in: it answers findings about that mapping and what is in it.
    `approver` is empty where nobody approved it.
    """

    rule: str
    reason: str
    by: str
    until: str
    over: Place
    approver: str = ""
    place: Place = field(default=NOWHERE, compare=False)
