"""A warning stands where it comes too late, or far from the step it belongs to."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.reading import Reading
from procgen.lint.rule import Complaint, ProcedureRule
from procgen.lint.safety.placing import placings
from procgen.lint.safety.words import hazard_related, place_of, step_subject, told
from procgen.model.hazard import Hazard, Scope


def check(reading: Reading) -> Iterator[Complaint]:
    """Each warning that stands outside the window of every step it could belong to, where one lacks it."""
    procedure = reading.procedure
    for placing in placings(reading):
        hazard = placing.hazard
        for need, stands in placing.misplaced:
            first = need.steps[0]
            side = "after" if stands > first else "too far before"
            yield Complaint(
                f"the warning “{hazard.name}” stands {side} {told(procedure, first)}",
                place_of(procedure, stands),
                f"move it {_where(hazard, told(procedure, first))}",
                (Related(place_of(procedure, first), "the step it belongs to"), *hazard_related(hazard)),
                step_subject(stands),
            )


def _where(hazard: Hazard, step: str) -> str:
    if hazard.scope is Scope.PROCEDURE:
        return "to the head of the procedure, before its first action"
    if hazard.scope is Scope.SECTION:
        return f"to the head of the section of {step}"
    return f"right before {step}"


RULE = ProcedureRule("warning-misplaced", Severity.ERROR, check)
