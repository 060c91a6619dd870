"""The parts of a procedure stand in another order than work is done."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.reading import Reading
from procgen.lint.rule import Complaint, ProcedureRule
from procgen.lint.safety.words import place_of, step_subject
from procgen.model.step import Section
from procgen.model.words import SectionName


def check(reading: Reading) -> Iterator[Complaint]:
    """Each section head comes after those that precede it, once."""
    procedure = reading.procedure
    order = list(SectionName)
    last: tuple[int, Section] | None = None
    for index, step in enumerate(procedure.steps):
        if not isinstance(step, Section):
            continue
        if last is not None and order.index(step.name) <= order.index(last[1].name):
            again = step.name is last[1].name
            yield Complaint(
                f"the section “{step.name}” "
                + ("begins twice" if again else f"comes after “{last[1].name}”"),
                place_of(procedure, index),
                "delete this head" if again else f"the order is {', '.join(order)}",
                (Related(place_of(procedure, last[0]), f"the section “{last[1].name}”"),),
                step_subject(index),
            )
            continue
        last = (index, step)


RULE = ProcedureRule("section-out-of-order", Severity.ERROR, check)
