"""A position may carry less than an empty unit weighs."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.fit import types_of
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each position limit against the tare of the unit types that it stands for."""
    for position in hold.positions.values():
        for code, limit in position.max_mass.items():
            for unit_type in types_of(network, code):
                tare = unit_type.tare
                if tare is None or tare.quantity >= unit_type.max_gross.quantity:
                    continue  # another rule's: the tare itself is wrong
                if limit.quantity < tare.quantity:
                    yield Complaint(
                        f"position “{position.name}” may carry {limit.quantity} of “{code}”, less than an"
                        f" empty {unit_type.code} weighs ({tare.quantity})",
                        limit.place,
                        "look for a digit lost or a wrong unit",
                        (Related(tare.place, "the tare"),),
                        (("position", position.name),),
                    )
                    break


RULE = HoldRule("limit-below-tare", Severity.ERROR, check)
