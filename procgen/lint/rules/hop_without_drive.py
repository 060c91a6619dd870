"""A unit can neither be driven nor be pushed along a part of a lane."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.lanes import Hop, hops_of
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold, Lane
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Where hand moves are forbidden, each hop, there and back, has a drive at its first or last bay.

    Between bulk sections, and between one and outside, loads are carried.
    """
    if hold.hand_moves is not None:
        return
    for lane in hold.lanes:
        hop = next(
            (hop for hop in _there_and_back(lane) if not (_carried(hold, hop) or _driven(hold, hop))), None
        )
        if hop is not None:
            yield Complaint(
                f"nothing moves a unit {hop.go} from “{hop.start}” to “{hop.end}”: no drive under either runs"
                f" {hop.go}, and the hold gives no leave to push by hand",
                hop.place,
                "add the drive, its bay or its direction; or write `hand-moves`",
                tuple(
                    Related(drive.place, f"“{drive.name}”")
                    for drive in hold.drives.values()
                    if {hop.start, hop.end} & set(drive.under)
                ),
                (("bay", hop.end),),
            )


def _there_and_back(lane: Lane) -> Iterator[Hop]:
    for hop in hops_of(lane):
        yield hop
        yield Hop(hop.end, hop.start, hop.go.opposite, hop.place)


def _carried(hold: Hold, hop: Hop) -> bool:
    return all(name not in hold.bays or hold.bays[name].bulk for name in (hop.start, hop.end))


def _driven(hold: Hold, hop: Hop) -> bool:
    return any(
        hop.go in drive.go and {hop.start, hop.end} & set(drive.under) for drive in hold.drives.values()
    )


RULE = HoldRule("hop-without-drive", Severity.ERROR, check)
