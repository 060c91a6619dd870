"""What to do when something goes wrong at a step, for the terminal and as data."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from procgen.model.hold import Hold
from procgen.model.station import Station
from procgen.model.step import Procedure, Section, Warn
from procgen.report.json_text import json_text
from procgen.report.places import Documents, place_data, shown_place
from procgen.report.plans import step_words
from procgen.report.step_form import step_data
from procgen.results.recovery import MISHAPS, Answer, Case, Outcome, mishap_words, where


def recoveries_text(
    cases: Sequence[Case],
    procedure: Procedure,
    hold: Hold,
    stations: Sequence[Station],
    documents: Documents,
    *,
    root: str = "",
) -> str:
    """The step, then every mishap with its steps; where there is no way, why not and whom to call."""
    index = cases[0].index
    head = f"{procedure.hold}, {procedure.operation}, step {_number(procedure, index)}"
    lines = [f"{head}: {step_words(procedure.steps[index], hold)}"]
    for answer, alike in _together(cases):
        places = where(tuple(case.places for case in alike if case.places))
        stands = f", {alike[0].answer.unit or 'the unit'} {places}" if places else ""
        lines += ["", f"{mishap_words(alike[0].mishap, hold)}{stands}.", f"  {_plain(answer.title)}"]
        for reason in answer.reasons:
            place = shown_place(reason.place, documents, root)
            lines.append(f"  {place}: {reason.message}" if place else f"  {reason.message}")
        if answer.until is not None:
            lines.append(f"  First finish step {_number(procedure, answer.until)}, then stop there.")
            continue
        lines += _steps(answer.procedure, hold)
        if answer.outcome is Outcome.CALL:
            lines += [f"  Call ({station.code}): {_contacts(station)}." for station in stations]
    return "\n".join(lines)


def recoveries_json(
    cases: Sequence[Case],
    procedure: Procedure,
    hold: Hold,
    stations: Sequence[Station],
    documents: Documents,
    *,
    root: str = "",
) -> str:
    """`hold`, `operation`, `step`, `cases` (each with its `steps` in the step form), `call` by station."""
    index = cases[0].index
    data = {
        "hold": hold.name,
        "operation": str(procedure.operation),
        "step": _number(procedure, index),
        "cases": [
            {
                "mishap": str(case.mishap),
                "places": list(case.places),
                "unit": case.answer.unit or None,
                "outcome": str(case.answer.outcome),
                "title": _plain(case.answer.title),
                "first_finish_step": None
                if case.answer.until is None
                else _number(procedure, case.answer.until),
                "reasons": [
                    {"message": reason.message, **place_data(reason.place, documents, root)}
                    for reason in case.answer.reasons
                ],
                "steps": []
                if case.answer.until is not None
                else [step_data(step) for step in case.answer.procedure.steps],
            }
            for case in cases
        ],
        "call": {
            station.code: [{"role": one.role, "how": one.how} for one in station.contacts]
            for station in stations
        },
    }
    return json_text(data)


def _together(cases: Sequence[Case]) -> Iterator[tuple[Answer, list[Case]]]:
    """The cases of one mishap that are answered alike."""
    groups: list[tuple[Answer, list[Case]]] = []
    for case in sorted(cases, key=lambda case: list(MISHAPS).index(case.mishap)):
        same = next(
            (
                alike
                for answer, alike in groups
                if alike[0].mishap is case.mishap
                and answer.reasons == case.answer.reasons
                and answer.until == case.answer.until
                and answer.procedure.steps == case.answer.procedure.steps
            ),
            None,
        )
        if same is None:
            groups.append((case.answer, [case]))
        else:
            same.append(case)
    yield from groups


def _steps(procedure: Procedure, hold: Hold) -> Iterator[str]:
    number = 0
    for step in procedure.steps:
        if isinstance(step, Warn):
            yield f"       {step.signal.upper()}: {step.hazard.replace('-', ' ')}"
        elif not isinstance(step, Section):
            number += 1
            yield f"  {number:3}. {step_words(step, hold)}"


def _number(procedure: Procedure, index: int) -> int:
    """The number of a step as it is printed: section heads and warnings do not count."""
    return sum(not isinstance(step, Section | Warn) for step in procedure.steps[: index + 1])


def _contacts(station: Station) -> str:
    return "; ".join(f"{one.role}, {one.how}" for one in station.contacts)


def _plain(text: str) -> str:
    return text.replace("**", "")
