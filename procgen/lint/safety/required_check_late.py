"""A check that a hazard requires is made after the step it should come before."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.reading import Reading
from procgen.lint.rule import Complaint, ProcedureRule
from procgen.lint.safety.requirements import Fault, lapses
from procgen.lint.safety.words import hazard_related, place_of, step_subject, told


def check(reading: Reading) -> Iterator[Complaint]:
    """Each required check that is made only behind the step it must come before."""
    procedure = reading.procedure
    for lapse in lapses(reading):
        if lapse.fault is Fault.LATE and lapse.check is not None:
            before = told(procedure, lapse.before)
            yield Complaint(
                f"the check “{lapse.required.condition}” comes after {before}",
                place_of(procedure, lapse.check),
                f"move it before {before}",
                (Related(place_of(procedure, lapse.before), before), *hazard_related(lapse.hazard)),
                step_subject(lapse.check),
            )


RULE = ProcedureRule("required-check-late", Severity.ERROR, check)
