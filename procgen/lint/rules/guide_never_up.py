"""A restraint guides units but nobody can raise it."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.lanes import can_be_left
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.words import RestraintState


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Whatever guides can be left raised."""
    for name, item in hold.restraints.items():
        if item.guides and not can_be_left(item, RestraintState.RAISED):
            yield Complaint(
                f"“{name}” must be up to guide a unit, but it rests lowered and nobody can raise it",
                item.place.child("at-rest"),
                "write `at-rest: raised`, or `moved-by: hand` and where it is reached from",
                (Related(item.place.child("guides"), "what it guides"),),
                (("item", name),),
            )


RULE = HoldRule("guide-never-up", Severity.ERROR, check)
