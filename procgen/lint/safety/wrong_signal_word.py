"""A warning is written under a signal word that is not its hazard's."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.reading import Reading
from procgen.lint.rule import Complaint, ProcedureRule
from procgen.lint.safety.words import hazard_related, place_of, signal_key, step_subject
from procgen.model.step import Warn
from procgen.model.words import SignalWord

_MEANS = {SignalWord.WARNING: "people can be hurt", SignalWord.CAUTION: "something can be damaged"}


def check(reading: Reading) -> Iterator[Complaint]:
    """The signal word of each warning step against that of its hazard."""
    procedure = reading.procedure
    for index, step in enumerate(procedure.steps):
        hazard = reading.hazards.hazards.get(step.hazard) if isinstance(step, Warn) else None
        if hazard is None or not isinstance(step, Warn) or step.signal == signal_key(hazard):
            continue
        why = _MEANS.get(hazard.signal, "nobody is hurt and nothing damaged")
        yield Complaint(
            f"“{hazard.name}” is written as a {step.signal}, but {why}: it is a {signal_key(hazard)}",
            place_of(procedure, index),
            f"write `- {signal_key(hazard)}: {hazard.name}`",
            hazard_related(hazard),
            step_subject(index),
        )


RULE = ProcedureRule("wrong-signal-word", Severity.ERROR, check)
