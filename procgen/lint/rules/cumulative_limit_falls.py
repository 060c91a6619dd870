"""A cumulative limit allows less over a longer stretch."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.words import LoadDirection


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Away from the end that a line counts from, its limit never falls."""
    for name, line in hold.cumulative.items():
        along = line.points if line.from_end is LoadDirection.FORWARD else line.points[::-1]
        for (near, less), (far, more) in pairwise(along):
            if more.quantity < less.quantity:
                yield Complaint(
                    f"cumulative limit “{name}” allows {less.quantity} up to {near}, but only {more.quantity}"
                    f" up to {far}, which is more of the hold",
                    more.place,
                    "look for a digit that slipped in one of the two, or correct `from`",
                    (Related(less.place, "the shorter stretch"),),
                )


RULE = HoldRule("cumulative-limit-falls", Severity.WARNING, check)
