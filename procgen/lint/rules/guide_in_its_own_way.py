"""A guide has to be up for a move that it stops."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.lanes import travel_between
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """No restraint guides a hop that it stops and in which a unit does not push it down."""
    for name, item in hold.restraints.items():
        for index, (start, end) in enumerate(item.guides):
            go = travel_between(hold, start, end)
            if item.between is None or {start, end} != set(item.between) or go is None:
                continue
            if go in item.stops - item.override:
                yield Complaint(
                    f"“{name}” must be up while a unit goes from “{start}” to “{end}”, and stops it there",
                    item.place.child("guides", index),
                    f"take the move out of `guides`, or put {go} in `override`",
                    (Related(item.place.child("stops"), "what it stops"),),
                    (("item", name),),
                )


RULE = HoldRule("guide-in-its-own-way", Severity.ERROR, check)
