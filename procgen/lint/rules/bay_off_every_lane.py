"""A bay that is no position stands on no lane: nothing ever comes there."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.lanes import bays_on_lanes
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Bays that are neither positions nor on a lane."""
    on_lanes = bays_on_lanes(hold)
    for name, bay in hold.bays.items():
        if name not in on_lanes and name not in hold.positions:
            yield Complaint(
                f"bay “{name}” is no position and no lane runs through it",
                bay.place.key(),
                "add it to its lane, or delete it",
                subject=(("bay", name),),
            )


RULE = HoldRule("bay-off-every-lane", Severity.WARNING, check)
