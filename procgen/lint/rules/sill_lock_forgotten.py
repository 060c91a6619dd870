"""A lock on the sill is not asked for before the door closes."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.words import OUTSIDE, RestraintKind, RestraintState


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each hand-moved lock or latch on the sill that rests raised is in `close-needs`."""
    for name, item in hold.restraints.items():
        lock = item.kind in (RestraintKind.LOCK, RestraintKind.LATCH)
        if not (lock and item.by_hand and item.at_rest is RestraintState.RAISED):
            continue
        if item.between is None or OUTSIDE not in item.between:
            continue
        bay = item.between[1] if item.between[0] == OUTSIDE else item.between[0]
        door = hold.doors.get(hold.bays[bay].door or "")
        if door is not None and name not in door.close_needs:
            yield Complaint(
                f"“{door.name}” may close with “{name}” still lowered",
                door.place.child("close-needs"),
                f"add `{name}: raised` to `close-needs`",
                (Related(item.place.key(), f"“{name}”"),),
                (("item", name),),
            )


RULE = HoldRule("sill-lock-forgotten", Severity.ERROR, check)
