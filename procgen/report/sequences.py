"""The plan for a whole aircraft as text and JSON; or why there is none."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from procgen.model.hold import Hold
from procgen.report.figure_tables import figures_text, table_data
from procgen.report.json_text import json_text
from procgen.report.limit_tables import exact
from procgen.report.load_check import quantity_data
from procgen.report.places import Documents, place_data, shown_place
from procgen.report.plans import plan_text
from procgen.report.step_form import procedure_data
from procgen.results.figures import FigureTable
from procgen.results.load_check import GivenUnit
from procgen.results.sequence import NoSequence
from procgen.results.sequence import Sequence as AircraftSequence
from procgen.results.stability import Stance
from procgen.units import of


def sequence_text(
    sequence: AircraftSequence,
    verdict: str,
    table: FigureTable,
    documents: Documents | None = None,
    *,
    root: str = "",
    why: bool = False,
    steps: Mapping[str, Hold] | None = None,
) -> str:
    """What follows, then the stances; with `steps` (the holds by name) every hold's steps after it."""
    head = f"{sequence.aircraft}, {sequence.operation}\n{verdict}"
    parts = [figures_text(head, [table], documents, root=root, why=why)]
    if steps is not None:
        parts += [plan_text(one, steps[name]) for name, one in sequence.procedures.items()]
    return "\n\n".join(parts)


def sequence_data(
    sequence: AircraftSequence,
    verdict: str,
    table: FigureTable,
    documents: Documents | None = None,
    *,
    root: str = "",
) -> dict[str, object]:
    """`aircraft`, `operation`, `order` (holds), `any_order`, `tail_stand`, `crossed` and `worst` (stances),
    `verdict`, `units`, `aboard`, `table` (as in `limits --format json`) and `procedures` in that order.

    A stance has `step`, `passing`, `mass`, `centre`, `nose_load`, `nose_share` (exact, in %), `met`.
    """
    order = sequence.order
    return {
        "aircraft": sequence.aircraft,
        "operation": str(sequence.operation),
        "order": list(order.holds),
        "any_order": order.any_order,
        "tail_stand": order.tail_stand,
        "crossed": _stance_data(order.crossed) if order.crossed is not None else None,
        "worst": _stance_data(order.worst),
        "verdict": verdict,
        "units": [_unit_data(unit) for unit in sequence.units],
        "aboard": [_unit_data(unit) for unit in sequence.aboard],
        "table": table_data(table, documents or {}, root),
        "procedures": [procedure_data(one) for one in sequence.procedures.values()],
    }


def no_sequence_text(none: NoSequence, documents: Documents | None = None, *, root: str = "") -> str:
    """Why there is no plan for the aircraft: one line for each reason, with the place behind it."""
    lines = [f"{none.aircraft}, {none.operation}: there is no plan."]
    for reason in none.reasons:
        place = shown_place(reason.place, documents or {}, root)
        lines.append(f"{place}: {reason.message}" if place else f"  {reason.message}")
    return "\n".join(lines)


def no_sequence_data(
    none: NoSequence, documents: Documents | None = None, *, root: str = ""
) -> dict[str, object]:
    """`aircraft`, `operation` and `reasons` (places with a `message`)."""
    reasons = [
        {"message": reason.message, **place_data(reason.place, documents or {}, root)}
        for reason in none.reasons
    ]
    return {"aircraft": none.aircraft, "operation": str(none.operation), "reasons": reasons}


def sequences_json(sequences: Sequence[Mapping[str, object]]) -> str:
    """One JSON object with `sequences`."""
    return json_text({"sequences": list(sequences)})


def _stance_data(stance: Stance) -> dict[str, object]:
    return {
        "step": stance.step,
        "passing": stance.passing,
        "mass": quantity_data(stance.mass),
        "centre": quantity_data(stance.centre),
        "nose_load": quantity_data(stance.nose_load),
        "nose_share": {"value": exact(of(stance.nose_share * 100, "%").value), "unit": "%"},
        "met": stance.met,
    }


def _unit_data(unit: GivenUnit) -> dict[str, object]:
    return {
        "hold": unit.hold,
        "position": unit.position,
        "type": unit.unit_type,
        "mass": quantity_data(unit.mass),
    }
