"""An interlock item may be left as it is when the door closes."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.lanes import can_be_left
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.words import OUTSIDE


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """What power needs away from its rest is in `close-needs` of a door; the sill is another rule's."""
    if hold.power is None:
        return
    asked = {name for door in hold.doors.values() for name in door.close_needs}
    for name, state in hold.power.needs.items():
        item = hold.restraints[name]
        on_sill = item.between is not None and OUTSIDE in item.between
        if name not in asked and state is not item.at_rest and can_be_left(item, state) and not on_sill:
            yield Complaint(
                f"power needs “{name}” {state}, and no door asks for it to be {item.at_rest} again",
                hold.power.place.child("needs", name),
                f"add `{name}: {item.at_rest}` to `close-needs` of the door",
                tuple(Related(door.place, f"“{door.name}”") for door in hold.doors.values()),
                (("item", name),),
            )


RULE = HoldRule("interlock-not-asked-at-door", Severity.ADVICE, check)
