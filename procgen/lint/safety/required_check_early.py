"""A check is made before the work is done that it has to look at."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.reading import Reading
from procgen.lint.rule import Complaint, ProcedureRule
from procgen.lint.safety.requirements import Fault, lapses
from procgen.lint.safety.words import hazard_related, place_of, step_subject, told


def check(reading: Reading) -> Iterator[Complaint]:
    """Each required check that is made before the last step it must come after."""
    procedure = reading.procedure
    for lapse in lapses(reading):
        if lapse.fault is Fault.EARLY and lapse.check is not None and lapse.after is not None:
            after = told(procedure, lapse.after)
            yield Complaint(
                f"the check “{lapse.required.condition}” is made too early: {after} comes after it",
                place_of(procedure, lapse.check),
                f"move it after {after}",
                (Related(place_of(procedure, lapse.after), after), *hazard_related(lapse.hazard)),
                step_subject(lapse.check),
            )


RULE = ProcedureRule("required-check-early", Severity.ERROR, check)
