"""Findings that a waiver answers: never hidden, listed beside the open ones."""

from __future__ import annotations

from dataclasses import dataclass

from procgen.diagnostics import Finding
from procgen.model.waiver import Waiver


@dataclass(frozen=True, slots=True)
class Waived:
    """A finding and the waiver that answers it."""

    finding: Finding
    waiver: Waiver


@dataclass(frozen=True, slots=True)
class Answered:
    """Findings after the waivers: those still open, with what is wrong with the waivers; those waived."""

    findings: tuple[Finding, ...]
    waived: tuple[Waived, ...] = ()
