"""Plans for a hold of two parts: rows and pallets at a wide door, two hand-loaded sections at a small one."""

from __future__ import annotations

from itertools import groupby

import pytest

from procgen.model.step import Drive, Procedure, Stow
from procgen.model.words import Operation, RestraintState
from procgen.results.plan import Plan
from procgen.simulate import simulate
from tests.deck import deck, deck_hold
from tests.plan.planning import planned

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
