"""A position limit never governs: no unit may be that heavy."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.fit import types_of
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.unit import UnitType
from procgen.units import Quantity

_THOUSAND = 1000
_FAR = 100
"""So many times more is no limit that never governs, but a number that was misread."""


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Position limits against the greatest maximum gross mass of their unit types, once for each code."""
    codes = dict.fromkeys(code for position in hold.positions.values() for code in position.max_mass)
    for code in codes:
        types = types_of(network, code)
        if not types:
            continue
        heaviest = max(types, key=lambda unit_type: unit_type.max_gross.quantity.si)
        above = [
            (position.name, position.max_mass[code])
            for position in hold.positions.values()
            if code in position.max_mass and position.max_mass[code].quantity > heaviest.max_gross.quantity
        ]
        if not above:
            continue
        name, stated = above[0]
        others = f" (and {', '.join(other for other, _ in above[1:])})" if above[1:] else ""
        yield Complaint(
            f"position “{name}”{others} may carry {stated.quantity} of “{code}”, but no such unit may"
            " weigh more"
            f" than {heaviest.max_gross.quantity}",
            stated.place,
            _way_out(stated.quantity, heaviest),
            (
                Related(heaviest.max_gross.place, f"the maximum of “{heaviest.code}”"),
                *(Related(other.place, f"position “{where}”") for where, other in above[1:]),
            ),
            (("position", name),),
        )


def _way_out(limit: Quantity, heaviest: UnitType) -> str:
    most = heaviest.max_gross.quantity
    if most.si * _FAR > limit.si:
        return "look whether the number belongs here; the unit's own maximum governs"
    meant = Quantity(most.value * _THOUSAND, most.unit).down()
    return (
        f"did you mean {meant} for “{heaviest.code}”? The point is a decimal point; a space parts thousands"
    )


RULE = HoldRule("limit-above-unit-maximum", Severity.ADVICE, check)
