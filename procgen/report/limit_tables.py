"""Limit tables as text and JSON: every cell with what governs it and every other candidate."""

from __future__ import annotations

from fractions import Fraction
from itertools import groupby

from procgen.report.json_text import json_text
from procgen.report.places import Documents, place_data, shown_place
from procgen.results.limits import Candidate, LimitCell, LimitTable
from procgen.units import Quantity


def limits_text(
    table: LimitTable, unit_symbol: str, documents: Documents | None = None, *, root: str = ""
) -> str:
    """The table to read in a terminal, masses in `unit_symbol` cut down to whole units.

    A mass that is written in another unit is shown as written too. With `documents`, each candidate
    names the places its numbers stand in.
    """
    lines = [f"{table.hold}: the most a position may carry (in {unit_symbol}, rounded down)"]
    for position, cells in groupby(table.cells, key=lambda cell: cell.position):
        lines += ["", f"Position {position}"]
        for cell in cells:
            lines += _cell_lines(cell, unit_symbol, documents or {}, root)
    return "\n".join(lines)


def limits_json(table: LimitTable, documents: Documents | None = None, *, root: str = "") -> str:
    """The table as one JSON object: `hold` and `cells`.

    A cell has `position`, `unit_type`, `acceptable`, `limit` (null where it is not acceptable), `governs`
    (the kind of the candidate that governs), `candidates` and `reasons`. A mass has the number and `unit` it
    derives from, exactly (`value`, a decimal or a fraction as text), `rounded_down` in that unit, and `kg`,
    exactly too.
    """
    cells = [_cell_data(cell, documents or {}, root) for cell in table.cells]
    return json_text({"hold": table.hold, "cells": cells})


def _cell_lines(cell: LimitCell, symbol: str, documents: Documents, root: str) -> list[str]:
    governing = cell.governing
    if governing is None:
        return [f"  {cell.unit_type}  not acceptable", *(f"      {reason}" for reason in cell.reasons)]
    lines = [f"  {cell.unit_type}  {_shown(governing.mass, symbol)}  governed by {governing.title}"]
    width = max(len(candidate.title) for candidate in cell.candidates)
    masses = [_shown(candidate.mass, symbol) for candidate in cell.candidates]
    column = max(len(mass) for mass in masses)
    for candidate, mass in zip(cell.candidates, masses, strict=True):
        mark = ">" if candidate is governing else " "
        sources = f" [{', '.join(str(source) for source in candidate.sources)}]" if candidate.sources else ""
        lines.append(
            f"    {mark} {candidate.title:{width}}  {mass:>{column}}  {candidate.reckoning}{sources}"
        )
        lines += [f"        {where}" for where in _places(candidate, documents, root)]
    return lines


def _places(candidate: Candidate, documents: Documents, root: str) -> list[str]:
    """The places known, each once, in the order of the reckoning; none where no document was given."""
    if not documents:
        return []
    shown = (shown_place(place, documents, root) for place in candidate.places)
    return list(dict.fromkeys(place for place in shown if place))


def _shown(mass: Quantity, symbol: str) -> str:
    converted = mass.to(symbol).down()
    return converted if mass.unit.symbol == symbol else f"{converted} ({mass.down()})"


def _cell_data(cell: LimitCell, documents: Documents, root: str) -> dict[str, object]:
    governing = cell.governing
    return {
        "position": cell.position,
        "unit_type": cell.unit_type,
        "acceptable": governing is not None,
        "limit": _mass_data(governing.mass) if governing else None,
        "governs": governing.kind if governing else None,
        "candidates": [
            {
                "kind": candidate.kind,
                "title": candidate.title,
                "mass": _mass_data(candidate.mass),
                "reckoning": candidate.reckoning,
                "sources": [str(source) for source in candidate.sources],
                "places": [place_data(place, documents, root) for place in candidate.places],
            }
            for candidate in cell.candidates
        ],
        "reasons": list(cell.reasons),
    }


def _mass_data(mass: Quantity) -> dict[str, str]:
    return {
        "value": exact(mass.value),
        "unit": mass.unit.symbol,
        "written": mass.written,
        "rounded_down": mass.down(),
        "kg": exact(mass.si),
    }


def exact(value: Fraction) -> str:
    """A decimal text where the value has one, else `numerator/denominator`."""
    twos = fives = 0
    rest = value.denominator
    while rest % 2 == 0:
        rest, twos = rest // 2, twos + 1
    while rest % 5 == 0:
        rest, fives = rest // 5, fives + 1
    if rest != 1:
        return f"{value.numerator}/{value.denominator}"
    places = max(twos, fives)
    digits = str(abs(value.numerator) * 10**places // value.denominator).rjust(places + 1, "0")
    sign = "-" if value < 0 else ""
    return sign + (f"{digits[:-places]}.{digits[-places:]}" if places else digits)
