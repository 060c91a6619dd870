"""A door has no bay behind it."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import (
    Hold,
)
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each door is named by some bay."""
    named = {bay.door for bay in hold.bays.values()}
    for door in hold.doors.values():
        if door.name not in named:
            yield Complaint(
                f"no bay lies at “{door.name}”",
                door.place.key(),
                f"write `door: {door.name}` at the bay in its doorway",
                subject=(("item", door.name),),
            )


RULE = HoldRule("door-unused", Severity.WARNING, check)
