"""What a simulation leaves behind: each step with the states around it, and the findings."""

from __future__ import annotations

from dataclasses import dataclass

from procgen.diagnostics import Finding
from procgen.model.step import Step
from procgen.results.state import State


@dataclass(frozen=True, slots=True)
class TracedStep:
    """One step: the state before, the state after, what was wrong with it.

    `passed` names the restraints a moving unit pushed down or that a held control kept down on the way.
    """

    step: Step
    before: State
    after: State
    findings: tuple[Finding, ...]
    passed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Trace:
    """A whole simulation; `findings` holds those of all steps and of the end, in order."""

    steps: tuple[TracedStep, ...]
    final: State
    findings: tuple[Finding, ...]
