"""A position is said to be higher than the hold."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """The clear height of a position is within that of the hold."""
    for name, position in hold.positions.items():
        if position.height is not None and position.height > hold.floor.height:
            yield Complaint(
                f"position “{name}” is {position.height} high, but the hold only {hold.floor.height}",
                position.place.child("height"),
                "correct one of the two",
                (Related(hold.floor.place.child("height"), "the hold's clear height"),),
                (("position", name),),
            )


RULE = HoldRule("position-above-ceiling", Severity.ERROR, check)
