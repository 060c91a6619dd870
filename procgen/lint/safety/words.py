"""How a complaint speaks of a step."""

from __future__ import annotations

from procgen.diagnostics import Place, Related
from procgen.lint.matching import verb_of
from procgen.model.hazard import Hazard
from procgen.model.step import (
    Close,
    Drive,
    Fit,
    Lower,
    Open,
    Present,
    Procedure,
    Push,
    Raise,
    Remove,
    SetControl,
    Stow,
)
from procgen.model.words import SignalWord


def told(procedure: Procedure, index: int) -> str:
    """A step by its number and what it does: `step 5 (open aft-door)`."""
    step = procedure.steps[index]
    name = ""
    if isinstance(step, Open | Close):
        name = step.target
    elif isinstance(step, Raise | Lower | Fit | Remove):
        name = step.item
    elif isinstance(step, Present | Drive | Push | Stow):
        name = step.unit
    elif isinstance(step, SetControl):
        name = step.control
    return f"step {index + 1} ({' '.join(word for word in (verb_of(step), name) if word)})"


def place_of(procedure: Procedure, index: int) -> Place:
    """Where a step stands; a generated one stands where its procedure does."""
    place = procedure.steps[index].place
    return place if place.file else procedure.place


def step_subject(index: int) -> tuple[tuple[str, str], ...]:
    """The subject of a finding about a step, numbered from 1."""
    return (("step", str(index + 1)),)


def hazard_related(hazard: Hazard) -> tuple[Related, ...]:
    """The place of the hazard, where the hazard list says where it stands."""
    return (Related(hazard.place, f"hazard “{hazard.name}”"),) if hazard.place.file else ()


def signal_key(hazard: Hazard) -> str:
    """The key under which a procedure writes a hazard of this signal word."""
    return "notice" if hazard.signal is SignalWord.NOTE else str(hazard.signal)
