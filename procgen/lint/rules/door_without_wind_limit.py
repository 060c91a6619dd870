"""A door names no wind limit, though everybody is asked to keep within it."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each door says in how much wind it may be opened and may stand open."""
    for door in hold.doors.values():
        lacking = [
            what
            for what, limit in (("be opened", door.wind.opening), ("stand open", door.wind.open))
            if limit is None
        ]
        if lacking:
            yield Complaint(
                f"“{door.name}” does not say in how much wind it may {' and '.join(lacking)}; the loader is"
                " asked to check it and is given no number",
                door.place.key(),
                "add what the manual says, as in wind: {opening: 40 kt, open: 60 kt, source: GO 7-2}",
                subject=(("item", door.name),),
            )


RULE = HoldRule("door-without-wind-limit", Severity.ADVICE, check)
