"""One registration stands under two aircraft types."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, NetworkRule
from procgen.model.effectivity import Registered
from procgen.model.station import Network


def check(network: Network) -> Iterator[Complaint]:
    """An aircraft is of one type; capital and small letters make no difference."""
    seen: dict[str, tuple[str, Registered]] = {}
    for aircraft in network.aircraft.values():
        for name, one in aircraft.registrations.items():
            first = seen.setdefault(name.upper(), (aircraft.name, one))
            if first[1] is not one:
                yield Complaint(
                    f"registration “{name}” stands under {first[0]}"
                    + (f" and under {aircraft.name}" if first[0] != aircraft.name else " twice"),
                    one.place.key(),
                    "leave it where it belongs and delete it here",
                    (Related(first[1].place.key(), "the first time"),),
                    (("registration", name),),
                )


RULE = NetworkRule("registration-in-two-types", Severity.ERROR, check)
