"""A warning is given again where the first one still holds: what stands everywhere is read nowhere."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.reading import Reading
from procgen.lint.rule import Complaint, ProcedureRule
from procgen.lint.safety.placing import placings
from procgen.lint.safety.words import hazard_related, place_of, step_subject


def check(reading: Reading) -> Iterator[Complaint]:
    """Each warning beyond the one that its scope asks for."""
    procedure = reading.procedure
    for placing in placings(reading):
        hazard = placing.hazard
        for again, enough in placing.repeated:
            yield Complaint(
                f"the warning “{hazard.name}” stands here again; once for the {hazard.scope} is enough",
                place_of(procedure, again),
                "delete it: a warning that is repeated is no longer read",
                (Related(place_of(procedure, enough), "the one that holds"), *hazard_related(hazard)),
                step_subject(again),
            )


RULE = ProcedureRule("warning-repeated", Severity.WARNING, check)
