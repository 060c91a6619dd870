"""From what was checked to everything that a station's site shows."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from procgen import draw, limits, write
from procgen.diagnostics import Place
from procgen.model.hold import Hold, Wind
from procgen.model.stated import Stated
from procgen.model.station import Network, Station
from procgen.pipeline.aircraft_pages import aircraft_sites
from procgen.pipeline.checking import Checked, CheckedProcedure
from procgen.pipeline.guiding import guides
from procgen.pipeline.out_of_service import out_of_service_guide
from procgen.pipeline.tables import hold_tables, lines_of
from procgen.results.page import HoldSite, ProcedurePage, StationSite
from procgen.units import Quantity

_BARE = (
    "hold",
    "aircraft",
    "limits",
    "pages",
    "why_no_page",
    "unit_types",
    "aircraft_type",
    "contours",
)
"""What `bare_hold_site` fills in."""
_NONE: Mapping[str, HoldSite] = {}


def station_site(
    checked: Checked,
    station: Station,
    *,
    with_recoveries: bool = False,
    with_matrices: bool = False,
    known: Mapping[str, HoldSite] = _NONE,
) -> StationSite:
    """Everything one station's site shows.

    The ways out of mishaps and what becomes of every position with an item out of service take time to find:
    they come where asked for. `known` are holds, by name, that the same program with the same hazards has
    made before: where data, limits and pages are equal, these two follow again and are taken from there.
    """
    network = checked.network
    holds = tuple(
        _hold_site(checked, station, name, with_recoveries, with_matrices, known.get(name))
        for name in station.holds
        if name in network.holds
    )
    return StationSite(network.airline, station, holds, tuple(aircraft_sites(checked, station)))


def _hold_site(
    checked: Checked,
    station: Station,
    name: str,
    with_recoveries: bool,
    with_matrices: bool,
    known: HoldSite | None,
) -> HoldSite:
    bare = bare_hold_site(checked, station, name)
    again = known if known is not None and known.out_of_service is not None and _alike(bare, known) else None
    network, hold, table = checked.network, bare.hold, bare.limits
    procedures = list(_procedures(checked, station, name))
    tables = hold_tables(network, station, hold, table, [one.procedure for one in procedures])
    return replace(
        bare,
        diagram=draw.hold_views(hold),
        diagrams={
            page.name: _diagrams(page, procedure, network)
            for page, procedure in zip(bare.pages, procedures, strict=True)
        },
        symbols=draw.symbols(hold),
        legend=draw.legend_of(hold),
        tables=tables,
        lines=lines_of((hold, network.unit_types, table, tables), checked.documents),
        recoveries=(
            ()
            if not with_recoveries
            else again.recoveries
            if again is not None
            else guides(network, station, bare, procedures)
        ),
        out_of_service=(
            None
            if not with_matrices
            else again.out_of_service
            if again is not None
            else out_of_service_guide(network, network.holds[name], hold, table, station.mass_unit)
        ),
    )


def _alike(bare: HoldSite, known: HoldSite) -> bool:
    """Whether all that ways out and matrices rest on is the same: the data, the limits, the pages."""
    return all(getattr(bare, field) == getattr(known, field) for field in _BARE)


def bare_hold_site(checked: Checked, station: Station, name: str) -> HoldSite:
    """What a station's site says of a hold in data and words, without drawings and further tables."""
    network = checked.network
    hold = as_worked_at(station, network.holds[name])
    table = limits.position_table(hold, network.unit_types)
    pages = tuple(
        write.page(
            one.procedure, hold, network.unit_types, network.hazards, table, mass_unit=station.mass_unit
        )
        for one in _procedures(checked, station, name)
    )
    return HoldSite(
        hold=hold,
        aircraft=network.aircraft[hold.aircraft].title,
        diagram="",
        limits=table,
        pages=pages,
        diagrams={},
        why_no_page=tuple(
            reason.message
            for (hold_name, _), no_plan in checked.no_plans.items()
            if hold_name == name
            for reason in no_plan.reasons
        ),
        unit_types=network.unit_types,
        aircraft_type=network.aircraft[hold.aircraft],
        contours=network.contours,
    )


def as_worked_at(station: Station, hold: Hold) -> Hold:
    """A hold with the wind limits that a station has tightened; the stricter of the two counts."""
    wind = station.wind
    if wind is None:
        return hold
    doors = {
        name: replace(
            door,
            wind=Wind(
                opening=_stricter(door.wind.opening, wind.opening, wind.place),
                open=_stricter(door.wind.open, wind.open, wind.place),
            ),
        )
        for name, door in hold.doors.items()
    }
    return replace(hold, doors=doors)


def _stricter(stated: Stated | None, own: Quantity | None, place: Place) -> Stated | None:
    if own is None or (stated is not None and stated.quantity <= own):
        return stated
    return Stated(own, None, place)


def _procedures(checked: Checked, station: Station, hold: str) -> Iterator[CheckedProcedure]:
    for (name, _), procedure in checked.generated.items():
        if name == hold:
            yield procedure
    for procedure in checked.written[station.code]:
        if procedure.hold.name == hold:
            yield procedure


def _diagrams(page: ProcedurePage, checked: CheckedProcedure, network: Network) -> Mapping[int, str]:
    units = {**checked.procedure.units, **checked.procedure.aboard}
    steps = [step for block in page.blocks for step in block.steps]
    traced = [(f"Hold {page.hold} at step {step.number}", checked.trace.steps[step.index]) for step in steps]
    views = draw.step_views(checked.hold, network.unit_types, traced, units)
    return {step.number: view for step, view in zip(steps, views, strict=True)}
