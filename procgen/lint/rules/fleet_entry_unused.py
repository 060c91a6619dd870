"""An aircraft type or a base size of the fleet is used nowhere."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.rule import Complaint, NetworkRule
from procgen.model.station import Network


def check(network: Network) -> Iterator[Complaint]:
    """Each aircraft type has a hold, each base size a unit type."""
    aircraft = {hold.aircraft for hold in network.holds.values()}
    for name, entry in network.aircraft.items():
        if name not in aircraft:
            yield Complaint(
                f"no hold is described of aircraft type “{name}”",
                entry.place.key(),
                "describe its holds, or delete it",
            )
    bases = {unit_type.base.code for unit_type in network.unit_types.values()}
    for code, base in network.bases.items():
        if code not in bases:
            yield Complaint(
                f"no unit type has the base “{code}”",
                base.place.key(),
                "add the unit types that have it, or delete it",
            )


RULE = NetworkRule("fleet-entry-unused", Severity.ADVICE, check, whole=True)
