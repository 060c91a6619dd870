"""Judge mutants: found, harmless, or a survivor."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from procgen.faults.mutants import Mutant
from procgen.results.state import State


class Outcome(StrEnum):
    """What became of a mutant.

    Harmless: nothing was found, and it ends in the same state; every state on the way was allowed, for
    else something had been found. A survivor ends elsewhere and nobody noticed.
    """

    FOUND = "found"
    HARMLESS = "harmless"
    SURVIVED = "survived"


@dataclass(frozen=True, slots=True)
class Verdict:
    """A mutant, what became of it and the rules that found it."""

    procedure: str
    mutant: Mutant
    outcome: Outcome
    rules: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Score:
    """The verdicts over some procedures."""

    verdicts: tuple[Verdict, ...]

    def count(self, outcome: Outcome) -> int:
        """How many mutants came to this outcome."""
        return sum(1 for verdict in self.verdicts if verdict.outcome is outcome)

    def survivors(self) -> tuple[Verdict, ...]:
        """The mutants that nobody noticed."""
        return tuple(verdict for verdict in self.verdicts if verdict.outcome is Outcome.SURVIVED)


def verdict(procedure: str, mutant: Mutant, rules: tuple[str, ...], clean_end: State, end: State) -> Verdict:
    """Judge one mutant by the rules that spoke and the state it ends in."""
    if rules:
        outcome = Outcome.FOUND
    elif end == clean_end:
        outcome = Outcome.HARMLESS
    else:
        outcome = Outcome.SURVIVED
    return Verdict(procedure, mutant, outcome, rules)
