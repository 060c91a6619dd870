"""Plans for a hold of two parts: rows and pallets at a wide door, two hand-loaded sections at a small one."""

from __future__ import annotations

from itertools import groupby

import pytest

from procgen.model.step import Close, Drive, Open, Procedure, Stow
from procgen.model.words import Operation, RestraintState
from procgen.results.plan import Plan
from procgen.simulate import simulate
from tests.deck import deck, deck_hold, deck_with
from tests.plan.planning import planned, refused

SUBSETS = [
    None,
    ("22P", "32P", "51"),
    ("11L", "52", "22P"),
    ("31P", "32P", "12R", "52", "51"),
    ("21R", "31P", "51", "11R"),
]


def made(operation: Operation, positions: tuple[str, ...] | None) -> Plan:
    return planned(deck_hold(), deck().network.unit_types, operation, positions)


@pytest.mark.parametrize("operation", list(Operation))
@pytest.mark.parametrize("positions", SUBSETS)
def test_parts_that_no_way_joins_are_worked_one_after_the_other(
    operation: Operation, positions: tuple[str, ...] | None
) -> None:
    moved = [step for step in made(operation, positions).steps if isinstance(step, Drive | Stow)]
    parts = [part for part, _ in groupby(moved, key=type)]
    assert parts == ([Drive, Stow] if operation is Operation.LOADING else [Stow, Drive])


def test_nobody_carries_pieces_while_the_power_is_on() -> None:
    for operation in Operation:
        on = False
        for step in made(operation, None).steps:
            if getattr(step, "control", "") == "power-switch":
                on = getattr(step, "position", "") == "on"
            assert not (on and isinstance(step, Stow))


def test_loading_begins_as_unloading_left_the_hold() -> None:
    emptied = made(Operation.UNLOADING, None)
    procedure = Procedure("u", "LD7", emptied.operation, emptied.units, emptied.steps)
    left = simulate(deck_hold(), deck().network.unit_types, procedure, emptied.start).final.restraints
    assert left["lock-31"] is RestraintState.RAISED  # its place is vacant
    assert made(Operation.LOADING, None).start.restraints == left


def test_a_guide_that_nobody_can_lower_any_more_says_why_it_is_up() -> None:
    by_hand = "lowered-by: {guide-switch: lower}, powered: true, guides: [[outside, 21L], [outside, 22P]]"
    hand = "moved-by: hand, reached-from: inside, at-rest: lowered, guides: [[outside, 21L], [outside, 22P]]"
    network = deck_with(by_hand, hand).network
    (reason,) = refused(network.holds["LD7"], network.unit_types, Operation.LOADING, ("11L",))
    assert reason.message == (
        "left row guide cannot be lowered: it is out of reach past u11L; it must be up to guide a unit from"
        " outside to 21L, where the unit then stands before it: let it be worked from outside or by a"
        " control, or pushed down by the unit"
    )


@pytest.mark.parametrize("operation", list(Operation))
def test_a_panel_behind_a_panel_is_opened_after_it_and_closed_before_it(operation: Operation) -> None:
    steps = made(operation, ("11L",)).steps
    panels = [step for step in steps if isinstance(step, Open | Close) and step.target in deck_hold().panels]
    assert [(type(step), step.target) for step in panels] == [
        (Open, "outer-panel"),
        (Open, "interlock-panel"),
        (Close, "interlock-panel"),
        (Close, "outer-panel"),
    ]


def test_nobody_gets_at_a_panel_behind_a_closed_one() -> None:
    plan = made(Operation.LOADING, ("11L",))
    steps = tuple(step for step in plan.steps if getattr(step, "target", "") != "outer-panel")
    found = simulate(
        deck_hold(),
        deck().network.unit_types,
        Procedure("p", "LD7", plan.operation, plan.units, steps),
        plan.start,
    ).findings
    assert found[0].rule == "control-behind-closed-panel"
    assert "opens interlock panel, but panel door (outer-panel) over it is closed" in found[0].message


def test_a_panel_behind_itself_is_found() -> None:
    loaded = deck_with("name: panel door, at: outside}", "name: panel door, behind: interlock-panel}")
    assert {finding.rule for finding in loaded.findings} == {"contradicting-keys"}
    assert "behind itself" in loaded.findings[0].message
