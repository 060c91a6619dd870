"""The words of a procedure at two doors: asked for where both are open, and only there."""

from __future__ import annotations

from dataclasses import replace

import pytest

from procgen.lint.reading import Reading
from procgen.model.step import Check, Drive, Procedure, Stow, Warn
from procgen.model.words import Operation
from procgen.write import compose
from tests.deck import deck, deck_hold
from tests.plan.planning import planned


def composed(operation: Operation, positions: tuple[str, ...] | None) -> Procedure:
    plan = planned(deck_hold(), deck().network.unit_types, operation, positions)
    return compose(plan, deck_hold(), deck().network.hazards)


@pytest.mark.parametrize("operation", list(Operation))
def test_who_gives_the_word_is_settled_before_anything_moves_at_two_doors(operation: Operation) -> None:
    steps = composed(operation, ("11L", "51")).steps
    asked = steps.index(Check("doors-agreed"))
    assert "work-at-two-doors" in {step.hazard for step in steps[:asked] if isinstance(step, Warn)}
    assert asked < min(at for at, step in enumerate(steps) if isinstance(step, Drive | Stow))


@pytest.mark.parametrize("operation", list(Operation))
def test_nobody_is_sent_to_another_door_where_one_is_opened(operation: Operation) -> None:
    procedure = composed(operation, ("11L",))
    assert Check("doors-agreed") not in procedure.steps
    assert "work-at-two-doors" not in {step.hazard for step in procedure.steps if isinstance(step, Warn)}
    reading = Reading(procedure, deck_hold(), deck().network.hazards)
    assert "work-at-two-doors" not in {hazard.name for hazard, _ in reading.met}


def test_the_check_asks_for_it_where_both_doors_are_opened() -> None:
    procedure = composed(Operation.UNLOADING, ("11L", "51"))
    bare = replace(procedure, steps=tuple(step for step in procedure.steps if not isinstance(step, Warn)))
    reading = Reading(bare, deck_hold(), deck().network.hazards)
    assert "work-at-two-doors" in {hazard.name for hazard, _ in reading.met}
