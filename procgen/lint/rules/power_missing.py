"""A hold has drives but no power."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Drives and powered restraints have a power switch."""
    if hold.power is not None:
        return
    for drive in hold.drives.values():
        yield Complaint(
            f"“{drive.name}” is powered, but the hold has no `power`",
            drive.place.key(),
            "write `power` with its switch, its positions for on and off and its interlocks",
            subject=(("item", drive.name),),
        )
        return
    for item in hold.restraints.values():
        if item.powered:
            yield Complaint(
                f"“{item.name}” is powered, but the hold has no `power`",
                item.place.child("powered"),
                "write `power`, or take `powered` from the restraint",
                subject=(("item", item.name),),
            )
            return


RULE = HoldRule("power-missing", Severity.ERROR, check)
