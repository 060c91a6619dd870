"""A zone or a cumulative limit speaks of a stretch of x where the hold has no floor."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Place, Related, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.units import Quantity


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """The ends of each zone's stretch and each point of a cumulative limit lie on the floor."""
    floor = hold.floor.rectangle.x
    for title, x, place in _ends(hold):
        if not floor.low <= x <= floor.high:
            yield Complaint(
                f"{title} speaks of x = {x}, but the floor ends at {floor.low} and {floor.high}",
                place,
                "correct x here or of the floor",
                (Related(hold.floor.place.child("x"), "the floor"),),
            )


def _ends(hold: Hold) -> Iterator[tuple[str, Quantity, Place]]:
    for zone in hold.zones.values():
        if zone.x is not None:
            for index, x in enumerate((zone.x.low, zone.x.high)):
                yield f"zone “{zone.name}”", x, zone.place.child("x", index)
    for name, line in hold.cumulative.items():
        for index, (x, _) in enumerate(line.points):
            yield f"cumulative limit “{name}”", x, line.place.child("points", index, "x")


RULE = HoldRule("stretch-outside-floor", Severity.WARNING, check)
