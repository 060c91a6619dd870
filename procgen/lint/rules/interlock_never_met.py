"""An interlock asks for a state that nobody can bring about."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.lanes import can_be_left
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each item that power needs can be left in the state asked for."""
    if hold.power is None:
        return
    for name, state in hold.power.needs.items():
        item = hold.restraints[name]
        if not can_be_left(item, state):
            yield Complaint(
                f"power needs “{name}” {state}, but"
                f" {'it is fixed' if item.fixed else 'nobody can leave it so'}",
                hold.power.place.child("needs", name),
                f"name an item that is moved by hand, or say at “{name}” that it is",
                (Related(item.place, f"“{name}”"),),
                (("item", name),),
            )


RULE = HoldRule("interlock-never-met", Severity.ERROR, check)
