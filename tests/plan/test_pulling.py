"""Where nobody has room behind a unit that goes out, the plan pulls it, if the hold has gear that will do.

By hand for MR-FWD and AKH: the pull is 556.04 N, the way out 1.73 m (see the simulator's test of pulling).
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from procgen.model.hand_moves import PullingGear
from procgen.model.hold import Hold
from procgen.model.step import Check, Push
from procgen.model.words import Operation
from procgen.units import of
from tests.plan.planning import moves, moves_of, planned
from tests.support import demo, demo_hold

TYPES = demo().network.unit_types


def _with(*gear: PullingGear) -> Hold:
    hold = demo_hold("MR-FWD")
    leave = hold.hand_moves
    assert leave is not None
    return replace(hold, hand_moves=replace(leave, gear={one.name: one for one in gear}))


def _gear(name: str = "strap", pull: str = "557", length: str = "1.73") -> PullingGear:
    leave = demo_hold("MR-FWD").hand_moves
    assert leave is not None
    rated = replace(leave.gear["pulling-strap"].pull, quantity=of(pull, "N"))
    return PullingGear(name, name, rated, of(length, "m"))


def _pulled_with(hold: Hold) -> set[str | None]:
    """The gear of the last move of each unit when the hold is unloaded; the plan simulates clean."""
    made = planned(hold, TYPES, Operation.UNLOADING)
    last = [moves_of(made, name)[-1] for name in made.units]
    return {move.gear for move in last if isinstance(move, Push)}


def test_a_unit_that_goes_out_is_pulled_where_nobody_has_room_behind_it() -> None:
    made = planned(demo_hold("MR-FWD"), TYPES, Operation.UNLOADING)
    pushed = [(move.through, move.gear) for move in moves(made) if isinstance(move, Push)]
    assert {gear for way, gear in pushed if way == ("23", "outside")} == {"pulling-strap"}
    assert {gear for way, gear in pushed if way != ("23", "outside")} == {None}
    for index, step in enumerate(made.steps):
        if isinstance(step, Push) and step.gear:
            assert made.steps[index - 1] == Check("path-clear")  # who pushed it before is out


@pytest.mark.parametrize(
    ("gear", "found"),
    [
        ((), None),
        ((_gear(),), "strap"),
        ((_gear(pull="556"),), None),
        ((_gear(length="1.72"),), None),
        ((_gear("short", length="1.72"), _gear("long"), _gear("more")), "long"),
    ],
)
def test_gear_that_is_too_weak_or_too_short_is_not_used(
    gear: tuple[PullingGear, ...], found: str | None
) -> None:
    assert _pulled_with(_with(*gear)) == {found}


def test_where_people_have_room_behind_they_push() -> None:
    """With 0.6 m of floor on the far side they stand there; and into the hold they push from the platform."""
    hold = _with(_gear(length="3"))
    area = hold.floor.rectangle
    low = of(area.y.low.si - Fraction(6, 10), "m")
    wider = replace(hold.floor, rectangle=replace(area, y=replace(area.y, low=low)))
    assert _pulled_with(replace(hold, floor=wider)) == {None}
    loading = planned(hold, TYPES, Operation.LOADING)
    assert {move.gear for move in moves(loading) if isinstance(move, Push)} == {None}


def test_without_the_walls_thickness_nobody_knows_where_to_stand() -> None:
    hold = _with(_gear(length="3"))
    doors = {name: replace(door, wall=None) for name, door in hold.doors.items()}
    assert _pulled_with(replace(hold, doors=doors)) == {None}
