"""A unit type fits no position of any hold."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.fit import why_not
from procgen.lint.rule import Complaint, NetworkRule
from procgen.model.station import Network


def check(network: Network) -> Iterator[Complaint]:
    """Each unit type fits some position of some hold, once there are holds."""
    for unit_type in network.unit_types.values() if network.holds else ():
        fits = any(
            not why_not(hold, position, unit_type)
            for hold in network.holds.values()
            for position in hold.positions.values()
        )
        if not fits:
            yield Complaint(
                f"unit type “{unit_type.code}” fits no position of any hold",
                unit_type.place.key(),
                "correct its base, contour or height, or the positions; delete it if no hold takes it",
                subject=(("unit-type", unit_type.code),),
            )


RULE = NetworkRule("unit-type-fits-nowhere", Severity.ADVICE, check, whole=True)
