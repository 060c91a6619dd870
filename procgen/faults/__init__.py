"""Seeded faults: honest slips put into a clean procedure, to see whether the check finds them."""

from procgen.faults.mutants import Mutant, mutants
from procgen.faults.score import Outcome, Score, Verdict, verdict

__all__ = ["Mutant", "Outcome", "Score", "Verdict", "mutants", "verdict"]
