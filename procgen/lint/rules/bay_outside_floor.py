"""A bay reaches beyond the floor of its hold."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each bay within the floor, axis by axis."""
    floor = hold.floor.rectangle
    for bay in hold.bays.values():
        for axis, mine, whole in (("x", bay.rectangle.x, floor.x), ("y", bay.rectangle.y, floor.y)):
            if mine.low < whole.low or mine.high > whole.high:
                yield Complaint(
                    f"bay “{bay.name}” reaches from {mine.low} to {mine.high} along {axis},"
                    f" but the floor ends at {whole.low} and {whole.high}",
                    bay.place.child(axis),
                    f"correct {axis} of the bay or of the floor",
                    (Related(hold.floor.place.child(axis), "the floor"),),
                    (("bay", bay.name),),
                )


RULE = HoldRule("bay-outside-floor", Severity.ERROR, check)
