"""A position of a control does nothing."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each position of a control that is read does something, save its rest."""
    read = set(_positions_read(hold))
    used = {name for name, _ in read}
    for name, control in hold.controls.items():
        for index, position in enumerate(control.positions):
            if name in used and position != control.rest and (name, position) not in read:
                yield Complaint(
                    f"nothing reads the position “{position}” of “{name}”",
                    control.place.child("positions", index),
                    "delete it, or say in the drive, the restraint or the power what it does",
                    subject=(("item", name),),
                )


def _positions_read(hold: Hold) -> Iterator[tuple[str, str]]:
    for drive in hold.drives.values():
        for position in drive.go.values():
            yield drive.run_by, position
    for item in hold.restraints.values():
        yield from item.lowered_by.items()
    if hold.power is not None:
        yield hold.power.switch, hold.power.on
        yield hold.power.switch, hold.power.off


RULE = HoldRule("control-position-unused", Severity.ADVICE, check)
