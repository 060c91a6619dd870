"""The other limit tables as text and JSON: zones, missing restraints, packages through doors."""

from __future__ import annotations

from collections.abc import Mapping

from procgen.report.json_text import json_text
from procgen.report.limit_tables import exact
from procgen.report.load_check import quantity_data, use_data
from procgen.report.places import Documents
from procgen.results.limits import LimitCell
from procgen.results.load_limits import Most
from procgen.results.missing import MissingTable
from procgen.results.packages import PackageTable
from procgen.units import Quantity


def zones_text(hold: str, zones: Mapping[str, Most], symbol: str) -> str:
    """The most that each zone takes, rounded down, and what stops it."""
    lines = [f"{hold}: the most each zone takes (in {symbol}, rounded down), whole units, all else empty"]
    for name, most in zones.items():
        lines += ["", f"{name}  {most.total.to(symbol).down()}"]
        if most.own_limits:
            lines.append(f"    at their own limit: {', '.join(most.own_limits)}")
        lines += [f"    stopped by {use.title}: {use.reckoning}" for use in most.stopped_by]
    return "\n".join(lines)


def zones_json(
    hold: str, zones: Mapping[str, Most], documents: Documents | None = None, *, root: str = ""
) -> str:
    """`zones`: each with `zone`, `most`, `masses` (one way to reach it), `stopped_by`, `own_limits`."""
    found = [
        {
            "zone": name,
            "most": quantity_data(most.total),
            "masses": [{"position": unit, "mass": quantity_data(mass)} for unit, mass in most.masses],
            "stopped_by": [use_data(use, documents or {}, root) for use in most.stopped_by],
            "own_limits": list(most.own_limits),
        }
        for name, most in zones.items()
    ]
    return json_text({"hold": hold, "zones": found})


def missing_text(table: MissingTable, symbol: str) -> str:
    """What is left with restraints out of service; a line for each that changes something."""
    lines = [f"{table.hold}: with restraints out of service (in {symbol}, rounded down)"]
    for one in table.cells:
        out = " and ".join(one.out)
        before, after = _limit(one.whole.limit, symbol), _limit(one.limit, symbol)
        if not one.usable:
            told = f"not usable: {'; '.join(one.cell.reasons)}"
        elif one.lowered:
            governing = one.cell.governing
            told = f"{after} instead of {before}, {governing.title if governing else ''}"
        else:
            told = f"as before, {after}"
        lines.append(f"  {one.whole.position} {one.whole.unit_type}  {out}: {told}")
    return "\n".join(lines)


def missing_json(table: MissingTable) -> str:
    """`cells`: `position`, `unit_type`, `out`, `usable`, `lowered`, `before`, `after`."""
    cells = [
        {
            "position": one.whole.position,
            "unit_type": one.whole.unit_type,
            "out": list(one.out),
            "usable": one.usable,
            "lowered": one.lowered,
            "before": cell_data(one.whole),
            "after": cell_data(one.cell),
        }
        for one in table.cells
    ]
    return json_text({"hold": table.hold, "cells": cells})


def packages_text(hold: str, tables: Mapping[str, PackageTable]) -> str:
    """The longest upright piece by width and height, for each door, in mm."""
    lines = [f"{hold}: the longest upright piece through each door, by height and width (mm, rounded down)"]
    for door, table in tables.items():
        lines += ["", door, "  height   " + "".join(f"{one.width!s:>9}" for one in table.rows[0])]
        for row in table.rows:
            lengths = (str(one.length.value) if one.length else "-" for one in row)
            lines.append(f"  {row[0].height!s:9}" + "".join(f"{length:>9}" for length in lengths))
    return "\n".join(lines)


def packages_json(hold: str, tables: Mapping[str, PackageTable]) -> str:
    """`doors`: each with `door` and `pieces`: `height`, `width`, `length` (null: none), `way`, `why`."""
    doors = [
        {
            "door": door,
            "pieces": [
                {
                    "height": quantity_data(one.height),
                    "width": quantity_data(one.width),
                    "length": quantity_data(one.length) if one.length else None,
                    "way": one.way,
                    "why": one.why,
                }
                for row in table.rows
                for one in row
            ],
        }
        for door, table in tables.items()
    ]
    return json_text({"hold": hold, "doors": doors})


def _limit(mass: Quantity | None, symbol: str) -> str:
    return mass.to(symbol).down() if mass else "nothing"


def cell_data(cell: LimitCell) -> dict[str, object]:
    """One cell: `limit` and `kg` (null where it is not acceptable), what governs it, the reasons."""
    governing = cell.governing
    return {
        "limit": quantity_data(governing.mass) if governing else None,
        "kg": exact(governing.mass.si) if governing else None,
        "governs": governing.kind if governing else None,
        "reckoning": governing.reckoning if governing else None,
        "sources": [str(source) for source in governing.sources] if governing else [],
        "reasons": list(cell.reasons),
    }
