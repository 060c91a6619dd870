"""A drive lies in a bay that no lane runs through."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.lanes import (
    bays_on_lanes,
)
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import (
    Hold,
)
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each bay of `under` is on a lane."""
    on_lanes = bays_on_lanes(hold)
    for name, drive in hold.drives.items():
        for index, bay in enumerate(drive.under):
            if bay not in on_lanes:
                yield Complaint(
                    f"“{name}” lies in bay “{bay}”, which no lane runs through",
                    drive.place.child("under", index),
                    f"add “{bay}” to its lane, or name the bays that “{name}” lies in",
                    subject=(("item", name), ("bay", bay)),
                )


RULE = HoldRule("drive-off-lane", Severity.ERROR, check)
