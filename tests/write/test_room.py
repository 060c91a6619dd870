"""Room behind a unit that is pushed: the platform, an empty bay within reach, free floor; else it is said."""

from __future__ import annotations

from dataclasses import replace

import pytest

from procgen.model.hold import Hold
from procgen.model.step import Push
from procgen.units import of
from procgen.write import phrases
from procgen.write.moving import push
from procgen.write.room import ROOM, has_room_behind
from procgen.write.standing import Standing
from tests.support import demo_hold


def _standing(**units: str) -> Standing:
    return Standing(frozenset(), {}, units)


def _room(hold: Hold, through: tuple[str, ...], **units: str) -> bool:
    return has_room_behind(Push("u", 5, through), _standing(u=through[0], **units), hold)


def test_room_is_on_the_platform_and_in_an_empty_bay_that_people_get_to() -> None:
    """By hand from the description: 6 cm of floor beside the bays, a lane from 23 over 22 to 21.

    Past the unit itself nobody gets into the empty bay behind it.
    """
    hold = demo_hold("MR-FWD")
    assert _room(hold, ("outside", "23"))
    assert _room(hold, ("22", "21"))
    assert not _room(hold, ("22", "21"), other="23")
    assert not _room(hold, ("22", "23"))
    assert not _room(hold, ("22", "23"), other="21")
    assert not _room(hold, ("21", "22", "23"))
    assert not _room(hold, ("23", "outside"))
    assert not _room(hold, ("23", "22"))


def test_people_get_behind_a_unit_through_the_other_row() -> None:
    """Two rows forward of the doorway (14): from 14L over 13L to 12L and to 12R, behind a unit in 13R."""
    hold = demo_hold("TR-FWD")
    assert _room(hold, ("13R", "14R"))
    assert not _room(hold, ("13R", "14R"), other="13L")
    assert _room(hold, ("13R", "14R"), other="11L")
    assert not _room(hold, ("13R", "14R"), other="14L")  # from 14R no one steps to 13L, across the corner


@pytest.mark.parametrize(("more", "room"), [("0.5", False), ("0.6", True)])
def test_free_floor_counts_from_a_persons_depth(more: str, room: bool) -> None:
    hold = demo_hold("MR-FWD")
    bay = hold.bays["23"]
    wall = hold.floor.rectangle
    gap = bay.rectangle.y.low.si - wall.y.low.si
    low = of(bay.rectangle.y.low.si - of(more, "m").si, "m")
    wider = replace(hold, floor=replace(hold.floor, rectangle=replace(wall, y=replace(wall.y, low=low))))
    assert gap < ROOM
    assert _room(wider, ("23", "outside")) is room


def test_a_push_without_room_sends_to_the_supervisor_and_one_with_room_does_not() -> None:
    hold = demo_hold("MR-FWD")
    out = push(Push("u", 5, ("23", "outside")), _standing(u="23"), hold)
    into = push(Push("u", 5, ("outside", "23")), _standing(u="outside"), hold)
    assert phrases.NO_ROOM in out.text
    assert phrases.NO_ROOM not in into.text
