"""A move needs more controls held at once than two hands can hold."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.lanes import Hop, all_hops
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network

MOST = 2
"""How many controls may be held at once."""


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """For each hop, there and back: its drive's control and those that alone lower a restraint in its way."""
    for hop in all_hops(hold):
        needed = _needed(hold, hop)
        if len(needed) > MOST:
            yield Complaint(
                f"to go {hop.go} from “{hop.start}” to “{hop.end}”, {len(needed)} controls must be held"
                " at once:"
                f" {', '.join(needed)}",
                hop.place,
                "let one control do two of these things, or have a restraint moved by hand or overridden",
                tuple(Related(hold.controls[name].place, f"“{name}”") for name in needed),
                (("bay", hop.end),),
            )


def _needed(hold: Hold, hop: Hop) -> list[str]:
    """The controls to hold; of several drives the first one, and none where the unit may be pushed."""
    drives = (
        []
        if hold.hand_moves
        else [
            drive.run_by
            for drive in hold.drives.values()
            if hop.go in drive.go and {hop.start, hop.end} & set(drive.under)
        ]
    )
    found = dict.fromkeys(drives[:1])
    for item in hold.restraints.values():
        between = item.between is not None and {hop.start, hop.end} == set(item.between)
        if between and hop.go in item.stops - item.override and not item.by_hand and item.lowered_by:
            found.setdefault(next(iter(item.lowered_by)))
    return list(found)


RULE = HoldRule("hop-needs-three-hands", Severity.ERROR, check)
