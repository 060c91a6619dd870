"""A checked load as text and JSON: every constraint with used, limit and margin, and the first to bind."""

from __future__ import annotations

from collections.abc import Sequence

from procgen.report.json_text import json_text
from procgen.report.limit_tables import exact
from procgen.report.places import Documents, place_data
from procgen.results.load_check import LoadCheck
from procgen.results.uses import Use
from procgen.units import Quantity


def load_text(checks: Sequence[LoadCheck], *, why: bool = False) -> str:
    """The load of each hold to read in a terminal: used rounded up, limits and margins down; with `why`, also
    every candidate above a position's limit.
    """
    return "\n\n".join("\n".join(_lines(check, why)) for check in checks)


def load_json(checks: Sequence[LoadCheck], documents: Documents | None = None, *, root: str = "") -> str:
    """One JSON object: `met`, and `holds` with `units`, `constraints`, `first` (a constraint) and `refused`.

    A constraint has `kind`, `title`, `used`, `limit`, `margin`, `met`, `share` (used part of the limit; null
    where the limit is zero), `reckoning`, `sources`, `places`; in `constraints` also `others`: every other
    candidate of a position's limit, of the same form. `counted_in_full` are restraints that hold several of
    the units and whose rating counts in full for each. Quantities have an exact `value` and a `unit`.
    """
    holds = [
        {
            "hold": check.hold,
            "met": check.met,
            "units": [
                {"position": unit.position, "type": unit.unit_type, "mass": quantity_data(unit.mass)}
                for unit in check.units
            ],
            "constraints": [
                {
                    **use_data(use, documents or {}, root),
                    "others": [use_data(other, documents or {}, root) for other in check.others_of(use)],
                }
                for use in check.uses
            ],
            "first": use_data(check.first, documents or {}, root) if check.first else None,
            "counted_in_full": [
                {
                    "restraint": one.restraint,
                    "title": one.title,
                    "directions": [str(direction) for direction in one.directions],
                    "positions": list(one.positions),
                    "sources": [str(source) for source in one.sources],
                    "places": [place_data(place, documents or {}, root) for place in one.places],
                }
                for one in check.counted_in_full
            ],
            "refused": [
                {"position": one.unit.position, "type": one.unit.unit_type, "reasons": list(one.reasons)}
                for one in check.refused
            ],
        }
        for check in checks
    ]
    return json_text({"met": all(check.met for check in checks), "holds": holds})


def _lines(check: LoadCheck, why: bool) -> list[str]:
    units = "1 unit" if len(check.units) == 1 else f"{len(check.units)} units"
    lines = [f"{check.hold}: {units}, {'within every limit' if check.met else 'NOT allowed'}"]
    for one in check.refused:
        unit = one.unit
        lines += [
            f"  {unit.unit_type} may not stand in {unit.position}",
            *(f"      {why}" for why in one.reasons),
        ]
    width = max((len(use.title) for use in check.uses), default=0)
    for use in check.uses:
        mark = "first to bind" if use is check.first else ""
        over = "" if use.met else "EXCEEDED"
        words = "  ".join(word for word in (over, mark) if word)
        numbers = f"used {use.used.up()}, limit {use.limit.down()}, margin {use.margin.down()}"
        lines.append(f"  {use.title:{width}}  {numbers}  {words}".rstrip())
        lines.append(f"      {_reckoned(use)}")
        others = check.others_of(use) if why else ()
        lines += [f"      {other.title}, {other.limit.down()}: {_reckoned(other)}" for other in others]
    if check.counted_in_full:
        lines.append("  Counted in full for each unit that it holds (rated for all together: state a zone):")
    for item in check.counted_in_full:
        directions = ", ".join(map(str, item.directions))
        lines.append(f"      {item.title} ({directions}): {', '.join(item.positions)}")
    return lines


def _reckoned(use: Use) -> str:
    sources = f" [{', '.join(map(str, use.sources))}]" if use.sources else ""
    return f"{use.reckoning}{sources}"


def use_data(use: Use, documents: Documents, root: str) -> dict[str, object]:
    """A constraint as JSON, with its why."""
    return {
        "kind": use.kind,
        "title": use.title,
        "used": quantity_data(use.used),
        "limit": quantity_data(use.limit),
        "margin": quantity_data(use.margin),
        "met": use.met,
        "share": None if use.share is None else exact(use.share),
        "reckoning": use.reckoning,
        "sources": [str(source) for source in use.sources],
        "places": [place_data(place, documents, root) for place in use.places],
    }


def quantity_data(quantity: Quantity) -> dict[str, str]:
    """A quantity as JSON: its exact value as text, and its unit."""
    return {"value": exact(quantity.value), "unit": quantity.unit.symbol}
