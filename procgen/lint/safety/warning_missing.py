"""A step comes with a hazard and no warning of it stands before it."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.reading import Reading
from procgen.lint.rule import Complaint, ProcedureRule
from procgen.lint.safety.placing import placings
from procgen.lint.safety.words import hazard_related, place_of, signal_key, step_subject, told
from procgen.model.hazard import Hazard, Scope


def check(reading: Reading) -> Iterator[Complaint]:
    """Each need for a warning that no warning of its hazard meets, not even a misplaced one."""
    procedure = reading.procedure
    for placing in placings(reading):
        hazard = placing.hazard
        for need in placing.missing:
            first = need.steps[0]
            yield Complaint(
                f"{told(procedure, first)} comes with the hazard “{hazard.title}”, but nothing warns of it",
                place_of(procedure, first),
                f"write `- {signal_key(hazard)}: {hazard.name}` {_where(hazard)}",
                hazard_related(hazard),
                step_subject(first),
            )


def _where(hazard: Hazard) -> str:
    if hazard.scope is Scope.PROCEDURE:
        return "at the head of the procedure, before its first action"
    if hazard.scope is Scope.SECTION:
        return "at the head of the section"
    return "right before the step"


RULE = ProcedureRule("warning-missing", Severity.ERROR, check)
