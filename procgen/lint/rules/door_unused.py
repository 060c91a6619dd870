"""A door has no bay behind it."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.lanes import lane_hops
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.words import OUTSIDE


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each door is named by some bay; lanes from outside into a bay at no door are another rule's."""
    entries = {
        place for hop in lane_hops(hold) if OUTSIDE in (hop.start, hop.end) for place in (hop.start, hop.end)
    }
    if any(hold.bays[bay].door is None for bay in entries - {OUTSIDE}):
        return
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
