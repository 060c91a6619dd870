"""A restraint is rated in a direction of travel that it is not said to stop."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.lanes import all_hops, pressed_in
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.words import Travel


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """What holds a unit in flight in a direction of its lane stops it there on the ground too."""
    for name, item in hold.restraints.items():
        if item.between is None or not item.stops or item.grips:
            continue
        ways = {hop.go for hop in all_hops(hold) if {hop.start, hop.end} == set(item.between)}
        if not ways & item.stops:
            continue  # stops-across-lane says so
        for way in (way for way in Travel if way in ways - item.stops):
            pressed = pressed_in(hold, way, item.between)
            if pressed is not None and pressed in item.rating:
                stops = ", ".join(one for one in Travel if one in item.stops | {way})
                yield Complaint(
                    f"“{name}” is rated {pressed}, but is not said to stop a unit that goes {way}",
                    item.rating[pressed].place,
                    f"write stops: [{stops}], or take {pressed} out of the rating",
                    (Related(item.place.child("stops"), "what it stops"),),
                    (("item", name),),
                )


RULE = HoldRule("rated-without-stop", Severity.WARNING, check)
