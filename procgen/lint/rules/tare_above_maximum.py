"""An empty unit weighs more than it may weigh full."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, NetworkRule
from procgen.model.station import Network


def check(network: Network) -> Iterator[Complaint]:
    """The tare of each unit type is below its maximum gross mass."""
    for unit_type in network.unit_types.values():
        if unit_type.tare is not None and unit_type.tare.quantity >= unit_type.max_gross.quantity:
            yield Complaint(
                f"“{unit_type.code}” weighs {unit_type.tare.quantity} empty and may weigh"
                f" {unit_type.max_gross.quantity} full",
                unit_type.tare.place,
                "correct one of the two",
                (Related(unit_type.max_gross.place, "the maximum gross mass"),),
                (("unit-type", unit_type.code),),
            )


RULE = NetworkRule("tare-above-maximum", Severity.ERROR, check)
