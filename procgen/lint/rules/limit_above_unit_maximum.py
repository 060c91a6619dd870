"""A position limit never governs: no unit may be that heavy."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.fit import types_of
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Position limit against the greatest maximum gross mass of the unit types it is for."""
    for position in hold.positions.values():
        for code, stated in position.max_mass.items():
            types = types_of(network, code)
            if not types:
                continue
            heaviest = max(types, key=lambda unit_type: unit_type.max_gross.quantity.si)
            if stated.quantity > heaviest.max_gross.quantity:
                yield Complaint(
                    f"position “{position.name}” may carry {stated.quantity} of “{code}”, but no such"
                    " unit may"
                    f" weigh more than {heaviest.max_gross.quantity}",
                    stated.place,
                    "look whether the number belongs here; the unit's own maximum governs",
                    (Related(heaviest.max_gross.place, f"the maximum of “{heaviest.code}”"),),
                    (("position", position.name),),
                )


RULE = HoldRule("limit-above-unit-maximum", Severity.ADVICE, check)
