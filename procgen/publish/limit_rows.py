"""Limit tables as pages and cards show them, and the exact figures a card's script compares with."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass

from procgen.model.stated import SourceRef
from procgen.model.words import Operation
from procgen.publish.reasons import where
from procgen.publish.together import together
from procgen.publish.words import both, most
from procgen.results.limits import Candidate, LimitCell
from procgen.results.page import HoldSite


@dataclass(frozen=True, slots=True)
class OtherLimit:
    """A candidate that does not govern."""

    title: str
    mass: str
    reckoning: str
    sources: tuple[SourceRef, ...]
    places: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LimitRow:
    """One position and unit type: the limit in words, what governs it, the other candidates.

    `places` are the lines of data that the numbers stand in.
    """

    position: str
    unit_type: str
    limit: str
    short: str
    governs: str
    reckoning: str
    sources: tuple[SourceRef, ...]
    places: tuple[str, ...]
    others: tuple[OtherLimit, ...]


@dataclass(frozen=True, slots=True)
class Refusal:
    """A unit type that some positions do not accept, and why."""

    unit_type: str
    positions: tuple[str, ...]
    reasons: tuple[str, ...]


def accepted(site: HoldSite, unit: str) -> tuple[LimitRow, ...]:
    """A row for every acceptable cell, in the table's order."""
    return tuple(_row(site, cell, unit) for cell in site.limits.cells if cell.governing is not None)


def alike(rows: Sequence[LimitRow]) -> tuple[tuple[str, LimitRow], ...]:
    """The rows with positions of one limit, type and reason together: their positions, and the first."""
    groups: dict[tuple[object, ...], list[LimitRow]] = {}
    for row in rows:
        groups.setdefault((row.unit_type, row.limit, row.governs, row.sources), []).append(row)
    return tuple((", ".join(row.position for row in group), group[0]) for group in groups.values())


def refused(site: HoldSite) -> tuple[Refusal, ...]:
    """Positions that do not accept a type, together where the reasons are the same."""
    groups: dict[tuple[str, tuple[str, ...]], list[str]] = {}
    for cell in site.limits.cells:
        if cell.governing is None:
            groups.setdefault((cell.unit_type, cell.reasons), []).append(cell.position)
    return tuple(Refusal(kind, tuple(where), why) for (kind, why), where in groups.items())


def limit_of(site: HoldSite, position: str, unit_type: str, unit: str) -> str:
    """The limit of one cell in words, or nothing where the type is not acceptable there."""
    for cell in site.limits.cells:
        if (cell.position, cell.unit_type) == (position, unit_type) and cell.limit is not None:
            return most(cell.limit, unit)
    return ""


def exact_limits(site: HoldSite, unit: str) -> str:
    """The table as JSON for a card's script: each limit in kg as an exact fraction.

    `cells` maps position and unit type to `n` and `d` (numerator and denominator in kg, as text, for
    numbers of any length), or to `why` where the type is not acceptable. `together` lists what
    units may weigh together.
    """
    cells: dict[str, dict[str, object]] = {}
    for cell in site.limits.cells:
        cells.setdefault(cell.position, {})[cell.unit_type] = _exact(cell, unit)
    limits = [
        {"where": row.where, "positions": list(row.positions), "most": row.most, "sum": row.is_sum}
        for row in together(site, unit)
        if row.positions
    ]
    text = json.dumps({"cells": cells, "together": limits}, ensure_ascii=False, separators=(",", ":"))
    return text.replace("<", "\\u003c")


def _exact(cell: LimitCell, unit: str) -> dict[str, object]:
    governing = cell.governing
    if governing is None:
        return {"why": list(cell.reasons)}
    mass = governing.mass.si
    return {
        "n": str(mass.numerator),
        "d": str(mass.denominator),
        "most": both(governing.mass, unit),
        "governs": _governs(governing),
    }


def _row(site: HoldSite, cell: LimitCell, unit: str) -> LimitRow:
    first, *rest = cell.candidates
    return LimitRow(
        position=cell.position,
        unit_type=cell.unit_type,
        limit=both(first.mass, unit),
        short=most(first.mass, unit),
        governs=first.title,
        reckoning=first.reckoning,
        sources=first.sources,
        places=where(site, first.places),
        others=tuple(
            OtherLimit(c.title, both(c.mass, unit), c.reckoning, c.sources, where(site, c.places))
            for c in rest
        ),
    )


def _governs(candidate: Candidate) -> str:
    sources = ", ".join(str(source) for source in candidate.sources)
    return f"{candidate.title} ({sources})" if sources else candidate.title


OPERATION_WORDS = {Operation.LOADING: "Loading", Operation.UNLOADING: "Unloading"}
"""Operations as headings show them."""
