"""A unit type is larger than any unit, denser than anything that is loaded, or weighs too much empty."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, NetworkRule
from procgen.model.station import Network
from procgen.model.unit import UnitType
from procgen.units import of

DENSEST = 2000
"""Kilograms in a cubic metre of the whole unit: twice water, more than sand (common practice, no source)."""
SIDE = (of("0.3", "m"), of(8, "m"))
HEIGHT = (of("0.1", "m"), of(4, "m"))
"""The least and the most of a base's side and of a height: the largest pallets are 6.06 m long and 3 m high
(common practice, no source).
"""
OUT_OF_REACH = 3
"""A maximum so many times what any position carries of the type is no limit but a slip."""


def check(network: Network) -> Iterator[Complaint]:
    """Sizes against what is built; maximum gross mass against the unit's volume and the positions' limits;
    tare against the gross.
    """
    yield from _sizes(network)
    for unit_type in network.unit_types.values():
        yield from _too_dense(unit_type)
        yield from _out_of_reach(unit_type, network)
        gross, tare = unit_type.max_gross, unit_type.tare
        if tare is not None and gross.quantity.si > tare.quantity.si > gross.quantity.si / 2:
            yield Complaint(
                f"“{unit_type.code}” weighs {tare.quantity} empty, more than half of the {gross.quantity}"
                " that it may weigh full",
                tare.place,
                "look for a digit too many in the tare, or one lost in the maximum",
                (Related(gross.place, "the maximum gross mass"),),
                (("unit-type", unit_type.code),),
            )


def _sizes(network: Network) -> Iterator[Complaint]:
    """Each base once, whatever the number of types on it; each type's height."""
    measured = {}
    for one in network.unit_types.values():
        if one.loose:
            continue
        measured[one.base.place.child("length")] = (f"base {one.base.code}", "long", one.base.length, SIDE)
        measured[one.base.place.child("width")] = (f"base {one.base.code}", "wide", one.base.width, SIDE)
        measured[one.place.child("height")] = (f"“{one.code}”", "high", one.height, HEIGHT)
    for place, (name, word, size, (low, high)) in measured.items():
        if size < low or size > high:
            few = size < low
            yield Complaint(
                f"{name} is {size} {word}: {'less' if few else 'more'} than any unit is ({low} to {high})",
                place,
                f"look for a digit {'lost' if few else 'too many'}, a wrong unit or a misplaced point",
            )


def _too_dense(unit_type: UnitType) -> Iterator[Complaint]:
    base = unit_type.base
    volume = base.length.si * base.width.si * unit_type.height.si
    gross = unit_type.max_gross
    if unit_type.loose or gross.quantity.si <= volume * DENSEST:
        return
    yield Complaint(
        f"“{unit_type.code}” may weigh {gross.quantity} and is {base.length} by {base.width} by"
        f" {unit_type.height}: heavier than if it were full of sand",
        gross.place,
        "look for a digit or a unit that slipped in the mass, the base or the height",
        (Related(base.place, f"base {base.code}"), Related(unit_type.place.child("height"), "the height")),
        (("unit-type", unit_type.code),),
    )


def _out_of_reach(unit_type: UnitType, network: Network) -> Iterator[Complaint]:
    codes = {unit_type.code, unit_type.base.code}
    stated = [
        limit
        for hold in network.holds.values()
        for position in hold.positions.values()
        for code, limit in position.max_mass.items()
        if code in codes
    ]
    most = max(stated, key=lambda limit: limit.quantity.si, default=None)
    gross = unit_type.max_gross
    if most is None or gross.quantity.si < OUT_OF_REACH * most.quantity.si:
        return
    yield Complaint(
        f"“{unit_type.code}” may weigh {gross.quantity}, but no position carries more than"
        f" {of(most.quantity.value, most.quantity.unit.symbol)} of it",
        gross.place,
        "look for a digit or a unit that slipped in one of the two",
        (Related(most.place, "the highest limit of a position"),),
        (("unit-type", unit_type.code),),
    )


RULE = NetworkRule("unit-beyond-belief", Severity.WARNING, check)
