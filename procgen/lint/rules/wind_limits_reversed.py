"""A door may stand open in less wind than it may be opened in."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """The wind limit for leaving a door open is not below that for opening it."""
    for door in hold.doors.values():
        opening, left_open = door.wind.opening, door.wind.open
        if opening is not None and left_open is not None and left_open.quantity < opening.quantity:
            yield Complaint(
                f"“{door.name}” may be opened in {opening.quantity} but left open only in"
                f" {left_open.quantity}",
                left_open.place,
                "exchange the two, or correct the wrong one",
                (Related(opening.place, "the limit for opening"),),
                (("item", door.name),),
            )


RULE = HoldRule("wind-limits-reversed", Severity.ERROR, check)
