"""A procedure begins with a step that belongs to no part of it."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.matching import verb_of
from procgen.lint.reading import Reading
from procgen.lint.rule import Complaint, ProcedureRule
from procgen.lint.safety.words import place_of, step_subject
from procgen.model.step import Section
from procgen.model.words import SectionName


def check(reading: Reading) -> Iterator[Complaint]:
    """The first step is a section head."""
    procedure = reading.procedure
    if procedure.steps and not isinstance(procedure.steps[0], Section):
        yield Complaint(
            f"step 1 ({verb_of(procedure.steps[0]) or 'a warning or note'}) stands before any section",
            place_of(procedure, 0),
            f"write `- section: {next(iter(SectionName))}` before it",
            subject=step_subject(0),
        )


RULE = ProcedureRule("step-before-section", Severity.ERROR, check)
