"""The out-of-service matrix for the terminal and as data."""

from __future__ import annotations

from collections.abc import Iterable

from procgen.model.hold import Hold
from procgen.report.json_text import json_text
from procgen.report.limit_sections import cell_data
from procgen.report.places import Documents, place_data, shown_place
from procgen.report.plans import step_words
from procgen.report.step_form import step_data
from procgen.results.matrix import Answer, Matrix, MatrixCell, MatrixRow, Outcome, grouped, told_apart
from procgen.results.plan import Reason

_ANSWERS = {
    Answer.AS_BEFORE: "as before",
    Answer.OTHER_STEPS: "other steps",
    Answer.BY_HAND: "by hand",
    Answer.LOWER_LIMIT: "lower limit",
    Answer.NOT_USABLE: "not usable",
}


def matrix_text(
    matrix: Matrix, hold: Hold, symbol: str, documents: Documents | None = None, *, root: str = ""
) -> str:
    """Item by item: the positions with one answer together, and why, with the places in the description."""
    rows = len(matrix.rows)
    items = "1 item" if rows == 1 else f"{rows} items"
    lines = [
        f"{matrix.hold}: {items} out of service, {sum(len(row.cells) for row in matrix.rows)} cells,"
        f" {matrix.plans} simulations"
    ]
    for row in matrix.rows:
        lines += ["", row.words]
        for operation, told, positions in grouped(row, lambda cell: _told(cell, hold, symbol)):
            where = ", ".join(positions)
            lines.append(f"  {operation} {where}: {told[0]}")
            lines += [f"      {line}" for line in told[1:]]
            lines += [f"      {at}" for at in _where(row, positions, str(operation), documents or {}, root)]
    return "\n".join(lines)


def matrix_json(matrix: Matrix, documents: Documents | None = None, *, root: str = "") -> str:
    """`rows`: `item`, `failure`, `words`, `cells`.

    A cell has `position`, `operation`, `answers` (the gravest last), `alone` and `together` (`positions`,
    `same`, `left_out`, `put_in`, `crew`, `reasons` with their places), `limits` and `procedure`,
    which names one of `procedures`: `title`, `operation`, `units` (unit type and bay) and `steps`.
    """
    data = {
        "hold": matrix.hold,
        "simulations": matrix.plans,
        "rows": [
            {
                "item": row.out.item,
                "failure": str(row.out.failure),
                "words": row.words,
                "cells": [_cell(cell, documents or {}, root) for cell in row.cells],
            }
            for row in matrix.rows
        ],
        "procedures": {
            name: {
                "title": procedure.title,
                "operation": str(procedure.operation),
                "units": {unit.name: [unit.unit_type, unit.bay] for unit in procedure.units.values()},
                "steps": [step_data(step) for step in procedure.steps],
            }
            for name, procedure in matrix.procedures.items()
        },
    }
    return json_text(data)


def _told(cell: MatrixCell, hold: Hold, symbol: str) -> tuple[str, ...]:
    """A cell in words, its answers first."""
    lines = [", ".join(_ANSWERS[answer] for answer in cell.answers)]
    crew = max((one.crew for one in (cell.alone, cell.together) if one.crew is not None), default=None)
    if Answer.BY_HAND in cell.answers:
        lines[0] += f" with {crew} people"
    for limit in cell.limits:
        after, before = limit.cell.governing, limit.whole.limit
        if after is not None and before is not None and cell.answer is not Answer.NOT_USABLE:
            was, now = before.to(symbol).down(), after.mass.to(symbol).down()
            lines.append(f"{limit.whole.unit_type} at most {now} ({after.title}) instead of {was}")
    if not cell.alone.workable:
        return (*lines, *messages(cell.alone.reasons, cell.position))
    if not cell.together.workable:
        return (*lines, "only alone: " + "; ".join(messages(cell.together.reasons, cell.position)))
    other = cell.alone if not cell.alone.same else cell.together
    left_out, put_in = told_apart(other.left_out, other.put_in)
    lines += [f"without: {step_words(step, hold)}" for step in left_out]
    lines += [f"with: {step_words(step, hold)}" for step in put_in]
    return tuple(lines)


def messages(reasons: Iterable[Reason], position: str) -> list[str]:
    """Reasons without the position's own name at their head, so that positions with one reason meet."""
    heads = (f"{position} cannot be reached: ", f"u{position} cannot be brought out: ")
    return [next((r.message[len(h) :] for h in heads if r.message.startswith(h)), r.message) for r in reasons]


def _where(
    row: MatrixRow, positions: tuple[str, ...], operation: str, documents: Documents, root: str
) -> list[str]:
    places = {
        shown_place(reason.place, documents, root): None
        for cell in row.cells
        if cell.position in positions and str(cell.operation) == operation
        for reason in (*cell.alone.reasons, *cell.together.reasons)
    }
    return [place for place in places if place]


def _cell(cell: MatrixCell, documents: Documents, root: str) -> dict[str, object]:
    return {
        "position": cell.position,
        "operation": str(cell.operation),
        "answers": [str(answer) for answer in cell.answers],
        "alone": _outcome(cell.alone, documents, root),
        "together": _outcome(cell.together, documents, root),
        "limits": [
            {
                "unit_type": limit.whole.unit_type,
                "out": list(limit.out),
                "usable": limit.usable,
                "before": cell_data(limit.whole, documents, root=root),
                "after": cell_data(limit.cell, documents, root=root),
            }
            for limit in cell.limits
        ],
        "procedure": cell.procedure,
    }


def _outcome(outcome: Outcome, documents: Documents, root: str) -> dict[str, object]:
    return {
        "positions": list(outcome.positions),
        "workable": outcome.workable,
        "same": outcome.same,
        "left_out": [step_data(step) for step in outcome.left_out],
        "put_in": [step_data(step) for step in outcome.put_in],
        "crew": outcome.crew,
        "reasons": [
            {"message": reason.message, **place_data(reason.place, documents, root)}
            for reason in outcome.reasons
        ],
    }
