"""The other limit tables as text and JSON: zones, missing restraints, packages through doors."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from procgen.report.json_text import json_text
from procgen.report.limit_tables import exact
from procgen.report.load_check import quantity_data, use_data
from procgen.report.places import Documents, place_data
from procgen.results.limits import LimitCell
from procgen.results.load_limits import Most
from procgen.results.missing import MissingTable
from procgen.results.packages import DoorWays, Longest, PackageTable
from procgen.units import Quantity


def zones_text(hold: str, zones: Mapping[str, Most], symbol: str) -> str:
    """The most that each zone takes, rounded down, and what stops it."""
    lines = [f"{hold}: the most each zone takes (in {symbol}, rounded down), whole units, all else empty"]
    if not zones:
        lines.append("  The description names no zone.")
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


def missing_json(table: MissingTable, documents: Documents | None = None, *, root: str = "") -> str:
    """`cells`: `position`, `unit_type`, `out`, `usable`, `lowered`, `before`, `after`."""
    cells = [
        {
            "position": one.whole.position,
            "unit_type": one.whole.unit_type,
            "out": list(one.out),
            "usable": one.usable,
            "lowered": one.lowered,
            "before": cell_data(one.whole, documents, root=root),
            "after": cell_data(one.cell, documents, root=root),
        }
        for one in table.cells
    ]
    return json_text({"hold": table.hold, "cells": cells})


def packages_text(hold: str, tables: Mapping[str, PackageTable]) -> str:
    """The longest upright piece by width and height, for each door, in mm."""
    lines = [f"{hold}: the longest upright piece through each door, by height and width (mm, rounded down)"]
    if not tables:
        lines.append(
            "  No `wall` of a door or no `cross-section` of the hold is described: nothing to reckon from."
        )
    for door, table in tables.items():
        lines += ["", door, "  height   " + "".join(f"{one.width!s:>9}" for one in table.rows[0])]
        for row in table.rows:
            lengths = (str(one.length.value) if one.length else "-" for one in row)
            lines.append(f"  {row[0].height!s:9}" + "".join(f"{length:>9}" for length in lengths))
    return "\n".join(lines)


def packages_json(
    hold: str, doors: Sequence[DoorWays], documents: Documents | None = None, *, root: str = ""
) -> str:
    """`doors`: each with `door`, `pieces`, and the `sources` and `places` of its numbers.

    A piece has `height`, `width`, `length` (null: none goes in that is as long as wide), `way`, `why`, and
    `others`: the other ways in, each with `way`, `length`, `why`.
    """
    found = [
        {
            "door": one.door,
            "pieces": [_piece_data(best, others) for best, *others in one.pieces],
            "sources": [str(source) for source in one.sources],
            "places": [place_data(place, documents or {}, root) for place in one.places],
        }
        for one in doors
    ]
    return json_text({"hold": hold, "doors": found})


def _piece_data(best: Longest, others: Sequence[Longest]) -> dict[str, object]:
    return {
        "height": quantity_data(best.height),
        "width": quantity_data(best.width),
        **_way_data(best),
        "others": [_way_data(other) for other in others],
    }


def _way_data(one: Longest) -> dict[str, object]:
    length = quantity_data(one.length) if one.length is not None else None
    return {"length": length, "way": one.way, "why": one.why}


def _limit(mass: Quantity | None, symbol: str) -> str:
    return mass.to(symbol).down() if mass else "nothing"


def cell_data(cell: LimitCell, documents: Documents | None = None, *, root: str = "") -> dict[str, object]:
    """One cell: `limit` and `kg` (null where it is not acceptable), what governs it with the places of its
    numbers, every other candidate with its `limit`, the reasons.
    """
    governing, known = cell.governing, documents or {}
    return {
        "limit": quantity_data(governing.mass) if governing else None,
        "kg": exact(governing.mass.si) if governing else None,
        "governs": governing.kind if governing else None,
        "reckoning": governing.reckoning if governing else None,
        "sources": [str(source) for source in governing.sources] if governing else [],
        "places": [place_data(place, known, root) for place in governing.places] if governing else [],
        "others": [
            {
                "governs": other.kind,
                "limit": quantity_data(other.mass),
                "reckoning": other.reckoning,
                "sources": [str(source) for source in other.sources],
                "places": [place_data(place, known, root) for place in other.places],
            }
            for other in cell.candidates
            if other is not governing
        ],
        "reasons": list(cell.reasons),
    }
