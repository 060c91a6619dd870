"""A hold is a variant of one that it cannot take the place of."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """A variant names a hold of its own aircraft type that is itself no variant, nor itself."""
    first = network.holds.get(hold.variant_of)
    if first is None:
        return
    if first.name == hold.name:
        why = "itself"
    elif first.aircraft != hold.aircraft:
        why = f"a hold of another aircraft type, {first.aircraft}"
    elif first.variant_of:
        why = f"a hold that is a variant itself, of “{first.variant_of}”"
    else:
        return
    yield Complaint(
        f"hold “{hold.name}” is said to be a variant of “{first.name}”: {why}",
        hold.place.child("variant-of"),
        "name the hold of the same aircraft type that the others are variants of",
        (Related(first.place.child("hold"), "the hold it names"),) if first.name != hold.name else (),
    )


RULE = HoldRule("variant-of-no-such-hold", Severity.ERROR, check)
