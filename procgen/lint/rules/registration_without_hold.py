"""An aircraft has no description of a hold that others of its type have."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, NetworkRule
from procgen.lint.variants import families
from procgen.model.station import Network


def check(network: Network) -> Iterator[Complaint]:
    """Every registration of a type has each of its holds, in one variant or another."""
    for family in families(network):
        if not all(family.covers.values()):  # one that covers nothing at all has a rule of its own
            continue
        missed = [name for name in family.registered if not family.for_aircraft(name)]
        stated = [hold.effectivity.place.key() for hold in family.holds if hold.effectivity is not None]
        if missed and stated:
            names = " and ".join(f"“{hold.name}”" for hold in family.holds)
            yield Complaint(
                f"{', '.join(missed)} of {family.holds[0].aircraft} would have no “{family.name}”:"
                f" only {names}, written for other aircraft",
                stated[0],
                "name it in the `effectivity` of the description that it has, or describe the hold as it is"
                " there; if it has no such hold, waive this with that reason",
                tuple(Related(family.registered[name].place.key(), "this aircraft") for name in missed[:3]),
                (("hold", family.name),),
            )


RULE = NetworkRule("registration-without-hold", Severity.ERROR, check, whole=True)
