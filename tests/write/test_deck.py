"""The words of a procedure at two doors: asked for where both are open, and only there."""

from __future__ import annotations

from dataclasses import replace

import pytest

from procgen.lint.reading import Reading
from procgen.model.step import Check, Drive, Procedure, Stow, Warn
from procgen.model.words import Operation
from procgen.results.page import PageStep
from procgen.write import compose
from tests.deck import deck, deck_hold
from tests.plan.planning import planned
from tests.write.derived import page_of, steps_of


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


def said(positions: tuple[str, ...] | None, operation: Operation = Operation.LOADING) -> list[PageStep]:
    return steps_of(page_of(composed(operation, positions), deck_hold(), deck().network))


def test_a_look_along_a_sill_names_what_stands_at_that_sill() -> None:
    looks = [
        step for step in said(("11L", "51")) if step.text.startswith("From outside, look along the sill")
    ]
    assert ["sill latch" in step.done_when for step in looks] == [True, False]  # the bulk door has none


def test_a_look_round_a_door_names_it_where_the_hold_has_two() -> None:
    looks = [
        step.text for step in said(("11L", "51")) if step.text.startswith(("Look round", "From outside"))
    ]
    doors = ["main cargo door", "bulk door"]
    assert [any(f"**{door}**" in text for text in looks[:2]) for door in doors] == [True, True]
    assert [any(f"**{door}**" in text for text in looks[2:]) for door in doors] == [True, True]
    assert len(looks) == 4


def test_a_pallet_pushes_down_what_lies_on_the_floor_that_it_sweeps() -> None:
    (into,) = [step for step in said(("22P",)) if "until the unit touches" in step.text]
    assert "pushes the **sill stop** down" in into.why  # it stands between outside and 21L


def test_what_concerns_the_stowing_stands_with_the_first_loose_load() -> None:
    procedure = composed(Operation.LOADING, ("11L", "31P", "52"))
    asked = procedure.steps.index(Check("stowing-agreed"))
    assert max(at for at, step in enumerate(procedure.steps) if isinstance(step, Drive)) < asked
    assert asked < next(at for at, step in enumerate(procedure.steps) if isinstance(step, Stow))


def test_nets_are_removed_and_locks_are_down_in_one_look() -> None:
    (look,) = [step for step in said(("11L", "52")) if "are down" in step.text]
    assert look.text.endswith("are down, and that the **door net** and the **section net** are removed.")
    assert look.if_not == "Lower what is up. Remove what is fitted."
