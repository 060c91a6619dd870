"""A control does nothing."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each control is read by a drive, a restraint or the power."""
    read = {drive.run_by for drive in hold.drives.values()}
    read |= {name for item in hold.restraints.values() for name in item.lowered_by}
    if hold.power is not None:
        read.add(hold.power.switch)
    for name, control in hold.controls.items():
        if name not in read:
            yield Complaint(
                f"nothing reads “{name}”: no drive, no restraint, not the power",
                control.place.key(),
                "name it in `run-by`, `lowered-by` or `power`, or delete it",
                subject=(("item", name),),
            )


RULE = HoldRule("control-unused", Severity.WARNING, check)
