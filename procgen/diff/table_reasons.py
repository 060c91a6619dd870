"""Which difference of a hold's data a difference of its tables follows from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from procgen.results.difference import Difference, DifferenceClass

LOADS = frozenset(
    {"positions", "zones", "cumulative", "restraints", "floor", "load-factors", "bays", "lanes"}
)
LOADS |= frozenset({"unit-types", "contours", "limits", "out-together", "aircraft"})
"""The parts of a hold's data that what its positions may carry is reckoned from."""
_BEHIND = {
    "zones": LOADS,
    "missing": LOADS,
    "packages": frozenset({"doors", "cross-section", "floor"}),
}
"""The parts of a hold's data that a table is reckoned from; a table of figures may rest on any."""
_WIND = "wind"


def following(found: Sequence[Difference], tables: Sequence[Difference]) -> list[Difference]:
    """The differences of a hold's data, and those of its tables that do not follow from them.

    A table follows from a difference of data that it rests on, and is never graver than that: then its place
    is marked by the data's own difference. What got looser though nothing that it rests on did is told by
    itself.
    """
    marked = {one.identity: one for one in found}
    alone: list[Difference] = []
    for table in tables:
        reasons = [one for one in found if _rests(table, one) and gravity(one) <= gravity(table)]
        if not reasons:
            alone.append(table)
            continue
        lead = marked[min(reasons, key=lambda one: (gravity(one), one.identity)).identity]
        if not any(set(table.anchors) <= set(one.anchors) for one in reasons):
            anchors = tuple(dict.fromkeys((*lead.anchors, *table.anchors)))
            marked[lead.identity] = replace(lead, anchors=anchors)
    return [*(marked[one.identity] for one in found), *alone]


def _rests(table: Difference, one: Difference) -> bool:
    _, _, kind, name = table.identity.split("/", 3)
    part = one.identity.split("/")[1]
    if kind == "figures":
        return (part == "doors") == (name == _WIND)
    return part in _BEHIND[kind]


def gravity(one: Difference) -> int:
    """The place of a difference among the classes; the gravest comes first."""
    return list(DifferenceClass).index(one.classed)
