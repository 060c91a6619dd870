"""A report that a hazard asks for is not made."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.reading import Reading
from procgen.lint.rule import Complaint, ProcedureRule
from procgen.lint.safety.words import hazard_related, place_of, step_subject
from procgen.model.step import Report


def check(reading: Reading) -> Iterator[Complaint]:
    """Each report of the hazards that come with some step stands somewhere in the procedure."""
    procedure = reading.procedure
    made = {step.what for step in procedure.steps if isinstance(step, Report)}
    for hazard, _ in reading.met:
        for report in hazard.reports:
            if report not in made:
                made.add(report)
                last = len(procedure.steps) - 1
                yield Complaint(
                    f"nobody is told “{report}”, which the hazard “{hazard.title}” asks for",
                    place_of(procedure, last),
                    f"write `- report: {report}`",
                    hazard_related(hazard),
                    step_subject(last),
                )


RULE = ProcedureRule("report-missing", Severity.ERROR, check)
