"""A restraint does nothing that the description tells of."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each restraint stops, guides, holds, carries or is asked for somewhere."""
    asked = {name for door in hold.doors.values() for name in door.close_needs}
    asked |= {name for position in hold.positions.values() for name in position.held_by}
    if hold.power is not None:
        asked |= set(hold.power.needs)
    for name, item in hold.restraints.items():
        stops = item.between is not None and item.stops
        if not (stops or item.guides or item.rating or name in asked):
            yield Complaint(
                f"“{name}” stops nothing, guides nothing, holds nothing and nothing asks for it",
                item.place.key(),
                "write what it does (`stops`, `guides`, `rating`, `held-by`), or delete it",
                subject=(("item", name),),
            )


RULE = HoldRule("restraint-idle", Severity.WARNING, check)
