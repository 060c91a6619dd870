"""Which change bars a page shows where: each difference at its element, what has none there at the head."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from procgen.publish.bars import Bar, Bars, EditionBars
from procgen.publish.limit_tables import missing_groups, zone_rows
from procgen.publish.together import together
from procgen.results.page import HoldSite, PageBlock, ProcedurePage

_ON_HOLD_PAGE = (
    "pages",
    "restraints",
    "positions",
    "controls",
    "panels",
    "drives",
    "power",
    "doors",
    "limit",
    "zones",
    "cumulative",
    "notes",
    "sources",
)
"""What has a place of its own on the page of a hold; everything else stands at its head."""
_ON_PROCEDURE = ("step", "after", "block", "unit", "warning")
_LIMITS = ("limit", "zones", "cumulative")
"""What a card shows of its hold's limits."""


def station_bars(every: EditionBars) -> Mapping[str, object]:
    """The names that the station's first page asks for."""
    bars = every.station()
    return {"bars": bars, "head_bar": bars.other("holds", "contacts")}


def hold_bars(every: EditionBars, hold: HoldSite) -> Mapping[str, object]:
    """The names that the page of a hold asks for."""
    elsewhere = ["tables", "figures"]
    if hold.out_of_service is not None:
        elsewhere.append("out-of-service")
    bars = every.hold(hold.hold.name).without(*elsewhere)
    return {"bars": bars, "head_bar": bars.other(*_ON_HOLD_PAGE), **_limit_names(hold)}


def limits_bars(every: EditionBars, hold: HoldSite, unit: str) -> Mapping[str, object]:
    """The names that the page of a hold's limits in full asks for; a table that went is told at its head."""
    zones = zone_rows(hold, unit)
    shown = [name for name, rows in (("zones", zones), ("missing", missing_groups(hold, unit))) if rows]
    bars = every.hold(hold.hold.name)
    rows = {row.element for row in zones}
    own = {name: ones for name, ones in bars.found.items() if name in rows}
    bars = bars.only("tables").joined(own)
    return {"bars": bars, "head_bar": bars.rest("tables", shown)}


def loads_bars(every: EditionBars, hold: HoldSite) -> Mapping[str, object]:
    """The names that the page of single pieces, straps, crew, wind and times asks for."""
    bars = every.hold(hold.hold.name).only("figures")
    return {"bars": bars, "head_bar": bars.rest("figures", [one.name for one in hold.tables.figures])}


def matrix_bars(every: EditionBars, hold: HoldSite) -> Mapping[str, object]:
    """The names that the page of items out of service asks for."""
    guide = hold.out_of_service
    shown = [] if guide is None else [f"{one.item}-{one.failure}" for one in guide.items]
    return {"bars": every.hold(hold.hold.name), "shown_failures": shown}


def procedure_bars(every: EditionBars, hold: HoldSite, page: ProcedurePage) -> Mapping[str, object]:
    """The names that the page of a procedure asks for."""
    bars = every.procedure(page.name)
    if any(guide.name == page.name for guide in hold.recoveries):
        bars = bars.without("recovery")
    bars = bars.joined(_unit_limits(every.hold(hold.hold.name), page).found)
    return _names(bars, bars.other(*_ON_PROCEDURE, *_LIMITS), page)


def card_bars(every: EditionBars, hold: HoldSite, page: ProcedurePage) -> tuple[Bars, Mapping[str, object]]:
    """The bars of a card, and the names it asks for: it shows the limits of its hold too."""
    limits = every.hold(hold.hold.name).only(*_LIMITS)
    bars = every.procedure(page.name).joined(limits.found)
    head = bars.other(*_ON_PROCEDURE, *_LIMITS, "recovery")
    return bars, {**_names(bars, head, page), **_limit_names(hold)}


def _names(bars: Bars, head: Bar | None, page: ProcedurePage) -> Mapping[str, object]:
    return {"bars": bars, "head_bar": head, "unit_bars": _units(bars, page), "steps_said": steps_said}


def _unit_limits(bars: Bars, page: ProcedurePage) -> Bars:
    """Those of the limits that the list of a procedure's units names."""
    named = {_limit(kind, bay) for _, kind, bay in page.units}
    return Bars({name: ones for name, ones in bars.found.items() if name in named})


def _units(bars: Bars, page: ProcedurePage) -> Mapping[str, Bar | None]:
    return {bay: bars.at(f"unit:{bay}", _limit(kind, bay)) for _, kind, bay in page.units}


def _limit(kind: str, bay: str) -> str:
    return f"limit:{bay}.{kind}"


def steps_said(blocks: Sequence[PageBlock], index: int) -> list[int]:
    """The numbers of the steps that one line says for several blocks: the one at `index` of each."""
    return [block.steps[index].number for block in blocks if index < len(block.steps)]


def _limit_names(hold: HoldSite) -> Mapping[str, object]:
    """What the tables of limits have a row for, by kind."""
    rows = [row.element.partition(":") for row in together(hold, "kg")]
    return {
        "limit_names": [
            f"{cell.position}.{cell.unit_type}" for cell in hold.limits.cells if cell.governing is not None
        ],
        "zone_names": {
            kind: [name for own, _, name in rows if own == kind] for kind in ("zones", "cumulative")
        },
    }
