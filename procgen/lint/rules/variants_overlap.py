"""Two descriptions of one hold are written for the same aircraft."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from procgen.diagnostics import Place, Related, Severity
from procgen.lint.rule import Complaint, NetworkRule
from procgen.lint.variants import families
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(network: Network) -> Iterator[Complaint]:
    """No aircraft has two variants of one hold; one that says nothing is written for every aircraft."""
    for family in families(network):
        for one, other in combinations(family.holds, 2):
            both = [name for name in family.covers[other.name] if name in family.covers[one.name]]
            unsaid = one.effectivity is None or other.effectivity is None
            if not both and not unsaid:
                continue
            yield Complaint(
                f"“{one.name}” and “{other.name}” describe one hold, and both apply to"
                f" {', '.join(both) or 'every aircraft of the type'}; a loader would not know which counts",
                _place(other),
                "say in `effectivity` of each which aircraft have it, none of them twice",
                (Related(_place(one), "the other one"),),
                (("hold", other.name),),
            )


def _place(hold: Hold) -> Place:
    """Where a hold says which aircraft have it, or that it says nothing."""
    if hold.effectivity is not None:
        return hold.effectivity.place.key()
    return hold.place.child("variant-of" if hold.variant_of else "hold")


RULE = NetworkRule("variants-overlap", Severity.ERROR, check)
