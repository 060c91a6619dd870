"""A check that a hazard requires is not made."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.reading import Reading
from procgen.lint.rule import Complaint, ProcedureRule
from procgen.lint.safety.requirements import Fault, lapses
from procgen.lint.safety.words import hazard_related, place_of, step_subject, told


def check(reading: Reading) -> Iterator[Complaint]:
    """Each required check that is made nowhere."""
    procedure = reading.procedure
    for lapse in lapses(reading):
        if lapse.fault is Fault.MISSING:
            condition, unit = lapse.required.condition, lapse.unit
            of_unit = f" for unit “{unit}”" if unit else ""
            step = f"{{condition: {condition}, unit: {unit}}}" if unit else condition
            yield Complaint(
                f"{told(procedure, lapse.before)} needs the check “{condition}”{of_unit} before it",
                place_of(procedure, lapse.before),
                f"write `- check: {step}` before it",
                hazard_related(lapse.hazard),
                step_subject(lapse.before),
            )


RULE = ProcedureRule("required-check-missing", Severity.ERROR, check)
