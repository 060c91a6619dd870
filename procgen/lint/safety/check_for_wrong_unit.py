"""A check that is made for each unit is made for another unit than the one that comes next."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.reading import Reading
from procgen.lint.rule import Complaint, ProcedureRule
from procgen.lint.safety.requirements import Fault, lapses
from procgen.lint.safety.words import hazard_related, place_of, step_subject, told
from procgen.model.step import Check


def check(reading: Reading) -> Iterator[Complaint]:
    """Each check of a unit that stands where that of the next unit should stand."""
    procedure = reading.procedure
    for lapse in lapses(reading):
        step = procedure.steps[lapse.check] if lapse.check is not None else None
        if lapse.fault is Fault.WRONG_UNIT and lapse.check is not None and isinstance(step, Check):
            what = f"is for “{step.unit}”" if step.unit else "does not say which unit"
            before = told(procedure, lapse.before)
            yield Complaint(
                f"the check “{step.condition}” {what}, but “{lapse.unit}” comes next",
                place_of(procedure, lapse.check),
                f"write unit: {lapse.unit}",
                (Related(place_of(procedure, lapse.before), before), *hazard_related(lapse.hazard)),
                step_subject(lapse.check),
            )


RULE = ProcedureRule("check-for-wrong-unit", Severity.ERROR, check)
