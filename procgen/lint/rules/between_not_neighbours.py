"""A restraint stands between bays that no lane joins."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.lanes import all_hops, bays_astray, bays_on_lanes
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.words import OUTSIDE


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """`between` names two places that follow each other in a lane; lanes gone wrong are another rule's."""
    joined = {(hop.start, hop.end) for hop in all_hops(hold)}
    on_lanes = (bays_on_lanes(hold) | {OUTSIDE}) - bays_astray(hold)
    for name, item in hold.restraints.items():
        if item.between is not None and set(item.between) <= on_lanes and item.between not in joined:
            one, other = item.between
            yield Complaint(
                f"“{name}” stands between “{one}” and “{other}”, but no lane goes from one to the other",
                item.place.child("between"),
                _suggest(joined, one, other),
                subject=(("item", name),),
            )


def _suggest(joined: set[tuple[str, str]], one: str, other: str) -> str:
    pairs = [f"“{a}” and “{b}”" for a, b in sorted(joined) if a in (one, other)]
    if not pairs:
        return "name two places that follow each other in a lane"
    return "lanes go between " + ", ".join(pairs)


RULE = HoldRule("between-not-neighbours", Severity.ERROR, check)
