"""A procedure lacks one of its parts."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.reading import Reading
from procgen.lint.rule import Complaint, ProcedureRule
from procgen.lint.safety.words import place_of, step_subject
from procgen.model.step import Section
from procgen.model.words import SectionName


def check(reading: Reading) -> Iterator[Complaint]:
    """All four sections stand in the procedure; steps before the first head are another rule's."""
    procedure = reading.procedure
    heads = [(index, step) for index, step in enumerate(procedure.steps) if isinstance(step, Section)]
    present = {step.name for _, step in heads}
    order = list(SectionName)
    for name in order:
        headless = bool(procedure.steps) and not isinstance(procedure.steps[0], Section)
        if name in present or (name is order[0] and headless):
            continue
        later = [index for index, step in heads if order.index(step.name) > order.index(name)]
        yield Complaint(
            f"the section “{name}” is missing",
            place_of(procedure, later[0]) if later else procedure.place.child("steps").key(),
            f"write `- section: {name}` " + ("before this one" if later else "where its steps begin"),
            subject=step_subject(later[0]) if later else (),
        )


RULE = ProcedureRule("section-missing", Severity.ERROR, check)
