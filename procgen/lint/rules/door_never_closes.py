"""A door asks for a state that nobody can bring about before it may close."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.lanes import can_be_left
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each item of `close-needs` can be left in the state asked for."""
    for door in hold.doors.values():
        for name, state in door.close_needs.items():
            item = hold.restraints[name]
            if not can_be_left(item, state):
                yield Complaint(
                    f"“{door.name}” may close only with “{name}” {state}, but"
                    f" {'it is fixed' if item.fixed else 'nobody can leave it so'}",
                    door.place.child("close-needs", name),
                    f"name an item that is moved by hand, or say at “{name}” that it is",
                    (Related(item.place, f"“{name}”"),),
                    (("item", name),),
                )


RULE = HoldRule("door-never-closes", Severity.ERROR, check)
