"""Something is powered and nothing tells how to stop it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.reading import Reading
from procgen.lint.rule import Complaint, ProcedureRule
from procgen.lint.safety.words import place_of, step_subject, told
from procgen.model.step import Drive, Warn

_LET_GO = re.compile(r"\b(?:let go of|release) the controls?\b|\bemergency stop\b", re.IGNORECASE)
"""How a warning tells to stop powered rollers: they run only while a control is held."""


def check(reading: Reading) -> Iterator[Complaint]:
    """A warning that tells to let go of the controls stands before the first powered move."""
    procedure = reading.procedure
    listed = reading.hazards.hazards
    tells = {name for name, hazard in listed.items() if _LET_GO.search(hazard.avoid)}
    for index, step in enumerate(procedure.steps):
        if isinstance(step, Warn) and step.hazard in tells:
            return
        if isinstance(step, Drive):
            yield Complaint(
                f"{told(procedure, index)} is powered, and no warning before it tells to let go of the"
                " controls",
                place_of(procedure, index),
                "write a warning that says how to stop:"
                f" {', '.join(sorted(tells)) or 'the hazard list has none'}",
                tuple(Related(listed[name].place, f"“{name}” tells it") for name in sorted(tells)),
                step_subject(index),
            )
            return


RULE = ProcedureRule("no-stop-instruction", Severity.ERROR, check)
