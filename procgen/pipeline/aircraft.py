"""The plan for a whole aircraft: the holds in an order that keeps its nose on the ground (limits.md, 8)."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from procgen.limits.described import limits_of
from procgen.limits.given import check_given
from procgen.limits.positions import position_cell
from procgen.limits.stability import order_holds, total
from procgen.limits.zones import check_load, placed
from procgen.model.hold import Hold
from procgen.model.station import Aircraft, Network
from procgen.model.step import PlannedUnit, Procedure
from procgen.model.words import Operation
from procgen.pipeline.checking import derive
from procgen.pipeline.weights import middle, weights_of
from procgen.plan import choose_units
from procgen.results.load_check import GivenUnit, LoadCheck
from procgen.results.plan import NoPlan, Reason
from procgen.results.sequence import NoSequence
from procgen.results.sequence import Sequence as AircraftSequence
from procgen.results.stability import Gear, Mass
from procgen.units import Quantity, of


def sequence(
    network: Network,
    aircraft: Aircraft,
    operation: Operation,
    units: Sequence[GivenUnit],
    aboard: Sequence[GivenUnit] = (),
) -> AircraftSequence | NoSequence:
    """Load or unload `units` while those `aboard` stay: the order of the holds in which the least nose gear
    share is greatest. Within a hold the planner's order counts.

    The load is refused as a whole where a limit is exceeded or a hold has no plan.
    """
    gear = gear_of(aircraft)
    if gear is None or aircraft.empty is None:
        return NoSequence(aircraft.name, operation, (_unknown(aircraft),))
    holds = {one.hold: network.holds[one.hold] for one in units}
    holds = {name: network.holds[name] for name in network.holds if name in holds}
    everything = [*units, *aboard]
    reasons = [reason for check in _checks(network, everything) for reason in _refusals(check)]
    if reasons:
        return NoSequence(aircraft.name, operation, tuple(reasons))
    procedures: dict[str, Procedure] = {}
    for name, hold in holds.items():
        staying = _planned(aboard, name)
        outcome = derive(network, hold, operation, _planned(units, name), staying)
        if isinstance(outcome, NoPlan):
            reasons += [Reason(f"{name}: {reason.message}", reason.place) for reason in outcome.reasons]
        else:
            procedures[name] = outcome
    if reasons:
        return NoSequence(aircraft.name, operation, tuple(reasons))
    weights = {
        name: weights_of(holds[name], one, _masses(everything, name)) for name, one in procedures.items()
    }
    start = start_of(network, aircraft, [*aboard, *(units if operation is Operation.UNLOADING else ())])
    order = order_holds(gear, start, weights)
    return AircraftSequence(
        aircraft.name,
        operation,
        gear,
        order,
        {name: procedures[name] for name in order.holds},
        tuple(units),
        tuple(aboard),
    )


def gear_of(aircraft: Aircraft) -> Gear | None:
    """Where the wheels of an aircraft stand; None where the description does not say."""
    described = aircraft.gear
    return None if described is None else Gear(described.nose, described.main, described.least_share)


def start_of(network: Network, aircraft: Aircraft, aboard: Sequence[GivenUnit]) -> Mass:
    """The empty aircraft with what is aboard. Raises `ValueError` where its empty mass is not described."""
    if aircraft.empty is None:
        raise ValueError("the empty mass of the aircraft is not described")
    empty = Mass.at("empty", aircraft.empty.mass, aircraft.empty.arm)
    units = [
        Mass.at(one.position, one.mass, of(middle(network.holds[one.hold], one.position), "m"))
        for one in aboard
    ]
    return total("aboard", [empty, *units])


def full_load(
    network: Network, hold: Hold, units: Mapping[str, PlannedUnit] | None = None
) -> list[GivenUnit]:
    """A unit in every position that can be filled, as heavy as its position allows; where several together
    may weigh less, all are lighter in the same proportion, so that the load is allowed.

    `units` says which types stand where; without it the first type that fits is taken. A unit that its
    position does not accept is left out.
    """
    types = network.unit_types
    chosen = choose_units(hold, types) if units is None else units
    found = []
    for unit in chosen.values():
        limit = position_cell(hold, hold.positions[unit.bay], types[unit.unit_type]).limit
        if limit is not None:
            found.append(GivenUnit(hold.name, unit.bay, unit.unit_type, limit, unit.place))
    stand = [placed(hold, types[one.unit_type], one.position, one.mass) for one in found]
    shares = [use.share for use in check_load(stand, limits_of(hold)) if use.share is not None]
    over = max([Fraction(1), *shares])
    return [
        GivenUnit(
            one.hold, one.position, one.unit_type, Quantity(one.mass.value / over, one.mass.unit), one.place
        )
        for one in found
    ]


def _unknown(aircraft: Aircraft) -> Reason:
    lacks = [key for key, has in (("gear", aircraft.gear), ("empty", aircraft.empty)) if has is None]
    return Reason(f"{aircraft.title} has no “{' and no “'.join(lacks)}” in the fleet's file", aircraft.place)


def _checks(network: Network, units: Sequence[GivenUnit]) -> Iterator[LoadCheck]:
    for name, hold in network.holds.items():
        mine = [one for one in units if one.hold == name]
        if mine:
            yield check_given(hold, network.unit_types, mine)


def _refusals(check: LoadCheck) -> Iterator[Reason]:
    for refused in check.refused:
        unit = refused.unit
        for why in refused.reasons:
            yield Reason(
                f"{check.hold}: {unit.unit_type} may not stand in {unit.position}: {why}", unit.place
            )
    for use in check.uses:
        if not use.met:
            words = f"{check.hold}: {use.title}: {use.used.up()} is above {use.limit.down()}"
            yield Reason(words, next(iter(use.places), check.units[0].place))


def _planned(units: Sequence[GivenUnit], hold: str) -> dict[str, PlannedUnit]:
    return {
        f"u{one.position}": PlannedUnit(f"u{one.position}", one.unit_type, one.position, one.place)
        for one in units
        if one.hold == hold
    }


def _masses(units: Sequence[GivenUnit], hold: str) -> dict[str, Quantity]:
    return {f"u{one.position}": one.mass for one in units if one.hold == hold}
