"""A drive runs in a direction that no lane over it allows."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.lanes import all_hops
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.words import Travel


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each direction of a drive is that of a lane, there or back, at one of its bays."""
    for name, drive in hold.drives.items():
        ways = {hop.go for hop in all_hops(hold) if {hop.start, hop.end} & set(drive.under)}
        idle = [way for way in Travel if way in drive.go and way not in ways]
        if ways and idle:
            yield Complaint(
                f"“{name}” runs {' and '.join(idle)}, but no lane over it goes that way",
                drive.place.child("go"),
                f"lanes over it go {', '.join(way for way in Travel if way in ways)}; correct `go` or"
                " `under`",
                subject=(("item", name),),
            )


RULE = HoldRule("drive-across-lane", Severity.WARNING, check)
