"""A restraint is said to be pushed down in a direction in which it stops nothing."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.words import Travel


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """`override` is a part of `stops`."""
    for name, item in hold.restraints.items():
        idle = [way for way in Travel if way in item.override and way not in item.stops]
        if idle:
            yield Complaint(
                f"“{name}” is pushed down by a unit going {' or '.join(idle)}, but does not stop it at all",
                item.place.child("override"),
                f"add {', '.join(idle)} to `stops`, or take it out of `override`",
                (Related(item.place.child("stops"), "what it stops"),) if item.stops else (),
                (("item", name),),
            )


RULE = HoldRule("override-without-stop", Severity.WARNING, check)
