"""How each aircraft of a station stands while its holds are worked, for the station's page."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from procgen import draw
from procgen.limits.stability import order_holds
from procgen.limits.stability_tables import stability_table, verdict
from procgen.model.station import Aircraft, Station
from procgen.model.step import Procedure
from procgen.model.words import Operation
from procgen.pipeline.aircraft import full_load, gear_of, start_of
from procgen.pipeline.checking import Checked
from procgen.pipeline.outfits import Outfit, outfits
from procgen.pipeline.tables import lines_of
from procgen.pipeline.weights import middle, weights_of
from procgen.results.load_check import GivenUnit
from procgen.results.page import AircraftSite
from procgen.results.stability import Gear

FULL = (
    "Every position has a unit, as the derived procedures of this manual place them, as heavy as its position"
    " allows; where several together may weigh less, all of the hold are lighter in the same proportion."
)
OTHER_LOADS = (
    "Another load has other shares, and may need another order or a tail stand: load control reckons it with"
    " its own masses."
)
LIGHT_NOSE = (
    "The same units, without those that would hold the nose down: with nothing forward, less aft is enough to"
    " tip the aircraft."
)


@dataclass(frozen=True, slots=True)
class _Work:
    """What is worked in one operation: procedures and masses by hold."""

    aircraft: Aircraft
    gear: Gear
    operation: Operation
    procedures: Mapping[str, Procedure]
    units: Sequence[GivenUnit]
    registrations: tuple[str, ...]


def aircraft_sites(checked: Checked, station: Station) -> Iterator[AircraftSite]:
    """For each aircraft whose wheels and empty mass are described: loading it full, unloading it, and loading
    what takes weight off the nose gear alone. Nothing where a hold has no derived procedure. Aircraft of a
    type that have other variants of its holds are told apart.
    """
    network = checked.network
    worked = [network.holds[name] for name in station.holds if name in network.holds]
    for name in dict.fromkeys(hold.aircraft for hold in worked):
        aircraft = network.aircraft[name]
        gear = gear_of(aircraft)
        if gear is None or aircraft.empty is None:
            continue
        groups = outfits(aircraft, worked)
        for group in groups:
            mine = group if len(groups) > 1 else replace(group, registrations=())
            for operation in Operation:
                yield from _sites(checked, aircraft, gear, mine, operation)


def _sites(
    checked: Checked, aircraft: Aircraft, gear: Gear, outfit: Outfit, operation: Operation
) -> Iterator[AircraftSite]:
    found = {hold.name: checked.generated.get((hold.name, operation)) for hold in outfit.holds}
    procedures = {hold: one.procedure for hold, one in found.items() if one is not None}
    if not procedures or len(procedures) < len(found):
        return
    marks = outfit.registrations
    units = [
        unit
        for hold in outfit.holds
        for unit in full_load(checked.network, hold, procedures[hold.name].units)
    ]
    work = _Work(aircraft, gear, operation, procedures, units, marks)
    tail = f"-{marks[0]}" if marks else ""
    who = f"{aircraft.title} ({', '.join(marks)})" if marks else aircraft.title
    name = f"{aircraft.name}-{operation}{tail}"
    yield _site(checked, work, name, f"{who}, {operation}", [FULL])
    aft = [one for one in units if _lowers_the_nose_share(checked, gear, one)]
    if operation is Operation.LOADING and aft and len(aft) < len(units):
        title = f"{who}, {operation} only what takes weight off the nose gear"
        yield _site(checked, replace(work, units=aft), f"{name}-aft", title, [FULL, LIGHT_NOSE])


def _lowers_the_nose_share(checked: Checked, gear: Gear, unit: GivenUnit) -> bool:
    """Whether a unit brings the share nearer to its limit: it stands aft of where the limit balances."""
    x = middle(checked.network.holds[unit.hold], unit.position)
    return gear.x_main.si - x < gear.least_share.quantity.si * gear.wheelbase.si


def _site(checked: Checked, work: _Work, name: str, title: str, remarks: Sequence[str]) -> AircraftSite:
    network = checked.network
    weights = {}
    for hold, procedure in work.procedures.items():
        masses = {
            unit.name: given.mass
            for unit in procedure.units.values()
            for given in work.units
            if (given.hold, given.position) == (hold, unit.bay)
        }
        if masses:
            weights[hold] = weights_of(network.holds[hold], procedure, masses)
    aboard = work.units if work.operation is Operation.UNLOADING else ()
    order = order_holds(work.gear, start_of(network, work.aircraft, aboard), weights)
    table = stability_table(f"stability-{name}", title, work.gear, order, [*remarks, OTHER_LOADS])
    return AircraftSite(
        name=name,
        title=title,
        chart=draw.stability_chart(title, work.gear, order),
        table=table,
        lines=lines_of(table, checked.documents),
        verdict=verdict(work.operation, order),
        matters=order.tail_stand or not order.any_order,
        registrations=work.registrations,
    )
