"""Plan views of every kind of hold: bulk sections behind nets, mixed bays, by hand, two doors, two ways."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache

import pytest

from procgen import draw
from procgen.draw.frame import MANUAL_ROOM, SHEET_WIDTH, around
from procgen.draw.layout import layout
from procgen.draw.names import larger
from procgen.draw.picture import picture
from procgen.draw.scene import scene_of
from procgen.model.hold import Hold
from procgen.model.loads import TieDown, TieDownPoint
from procgen.model.stated import Span1
from procgen.model.step import Drive, Push, Raise, Stow
from procgen.model.unit import UnitType
from procgen.model.words import Stand
from procgen.units import of
from tests.draw.laws import not_found, too_small, unnamed, wrong
from tests.draw.scenes import moments, traced, units_of
from tests.draw.test_any_hold import wide_bays_and_two_doors
from tests.simulate.bench import bench
from tests.simulate.kinds import MIX_IN, SECT_IN
from tests.support import demo


@cache
def bulk() -> tuple[Hold, Mapping[str, UnitType]]:
    """Three sections behind nets, the door on the left, with four tie-down points."""
    network = bench(SECT_IN).loaded.network
    hold = network.holds["SECT"]
    points = {
        f"T{n}": TieDownPoint(f"T{n}", f"ring T{n}", of(x, "m"), of(y, "m"), {})
        for n, (x, y) in enumerate([("10.4", "-0.9"), ("10.4", "0.9"), ("12", "0.9"), ("15.6", "-0.9")], 1)
    }
    return replace(hold, tie_down=TieDown(points, {})), network.unit_types


@cache
def kinds() -> Mapping[str, tuple[Hold, Mapping[str, UnitType]]]:
    mixed = bench(MIX_IN).loaded.network
    network = demo().network
    return {
        "bulk": bulk(),
        "mixed": (mixed.holds["MIX"], mixed.unit_types),
        "two doors": (wide_bays_and_two_doors(), network.unit_types),
        **{name: (hold, network.unit_types) for name, hold in network.holds.items()},
    }


def each() -> Iterator[tuple[Hold, Mapping[str, UnitType]]]:
    yield from kinds().values()


@pytest.mark.parametrize("upright", [True, False])
def test_all_can_be_read_in_any_kind(upright: bool) -> None:
    for hold, _ in each():
        for numbered in (True, False):
            plan = layout(hold, upright=upright, numbered=numbered)
            assert wrong(plan) == [], hold.name
            listed = [row.box for row in plan.rows]
            assert not any(row.overlaps(box) for row in listed for box in plan.platforms.values()), hold.name
            # Text shrinks with a sheet that is wider than what it is shown in; it stays at 9 pixels or more.
            assert not too_small(plan, SHEET_WIDTH if upright else MANUAL_ROOM), hold.name


@pytest.mark.parametrize("upright", [True, False])
@pytest.mark.parametrize("last_first", [True, False])
def test_all_can_be_read_at_any_step_of_any_kind(last_first: bool, upright: bool) -> None:
    for hold, types in each():
        plan = layout(hold, upright=upright)
        units = units_of(hold, next(iter(types)))
        for step in moments(hold, last_first=last_first):
            scene = scene_of(hold, step, units)
            laid = picture(hold, types, plan, scene)
            assert wrong(plan, laid) == [], (hold.name, step.step)
            assert unnamed(hold, scene, plan, laid) == [], (hold.name, step.step)


def test_the_laws_see_what_is_wrong() -> None:
    hold, types = kinds()["SR-AFT"]
    plan = layout(hold, upright=True, numbered=True)
    for name, box in plan.bay_names.items():
        edge = plan.bays[name]
        moved = replace(
            plan, bay_names={**plan.bay_names, name: around(edge.left, edge.top, box.width, box.height)}
        )
        assert f"bay {name}" in wrong(moved)
    door, line = next(iter(plan.door_lines.items()))
    on_door = replace(plan, forward=around(*line.at(0.5), 20, 10))
    assert ("forward", f"door line {door}") in wrong(on_door)
    assert too_small(replace(plan, width=329))
    assert not_found(hold, types, upright=True) == []
    title = hold.restraints["lock-42"].title
    other = replace(hold.restraints["lock-42"], title=f"{title} x")
    longer = replace(hold, restraints={**hold.restraints, "lock-42": other})
    laid = picture(
        hold, types, layout(hold, upright=True), scene_of(hold, traced(hold, Raise("lock-42"), {}), {})
    )
    scene = scene_of(hold, traced(hold, Raise("lock-42"), {}), {})
    assert unnamed(hold, scene, plan, laid) == []
    assert unnamed(longer, scene, plan, laid) == ["lock-42"]


@pytest.mark.parametrize("upright", [True, False])
def test_every_named_part_is_found_in_the_view_of_parts(upright: bool) -> None:
    for hold, types in each():
        assert not_found(hold, types, upright=upright) == [], hold.name


def test_each_of_several_doors_is_named_where_it_is() -> None:
    for upright in (True, False):
        hold, _ = kinds()["two doors"]
        plan = layout(hold, upright=upright, numbered=True)
        for name, door in hold.doors.items():
            assert " ".join(plan.door_names[name].lines) == door.title
            assert plan.door_names[name].box.within(plan.platforms[name])
        assert layout(hold, upright=upright).door_names == {}  # there a unit may stand


def test_a_narrow_section_makes_no_sheet_too_wide_for_a_phone() -> None:
    hold, _ = bulk()
    bay = hold.bays["52"]
    low = bay.rectangle.x.low
    short = replace(bay, rectangle=replace(bay.rectangle, x=Span1(low, of(str(float(low.si) + 0.5), "m"))))
    narrow = replace(hold, bays={**hold.bays, "52": short})
    for numbered in (True, False):
        assert not too_small(layout(narrow, upright=True, numbered=numbered))


def test_a_hold_too_long_to_be_read_lying_is_drawn_upright_only() -> None:
    hold, _ = kinds()["MX-AFT"]
    floor = hold.floor.rectangle
    far = replace(floor, x=Span1(floor.x.low, of("60", "m")))
    longer = replace(hold, floor=replace(hold.floor, rectangle=far))
    moved = replace(longer.restraints["left-rail"], title="rail on the left")
    other = replace(longer, restraints={**longer.restraints, "left-rail": moved})
    assert "pg-lying" in draw.hold_views(hold)
    assert "pg-lying" not in draw.hold_views(longer)
    assert "pg-upright" in draw.hold_views(longer)
    compared = draw.compared_views(longer, other)
    assert compared is not None
    assert all("pg-upright" in views and "pg-lying" not in views for views in compared)


def test_a_bay_that_shares_floor_with_a_larger_one_is_dashed_and_the_legend_says_so() -> None:
    hold, types = kinds()["mixed"]
    plan = layout(hold, upright=True)
    assert larger(plan.bays) == {"1P", "2P"}
    svg = draw.plan_view(hold, types, None, {}, upright=True)
    assert svg.count('class="pg-bay pg-shared"') == 4
    assert svg.index('class="pg-bay"') < svg.index("pg-shared")  # the small ones lie on top
    assert "shares floor with a larger one" in draw.legend_of(hold)
    assert "shares floor" not in draw.legend_of(demo().network.holds["SR-AFT"])


def test_nets_and_tie_down_points_are_in_the_legend_of_a_hold_that_has_them() -> None:
    hold, _ = bulk()
    assert "of a net fitted" in draw.legend_of(hold)
    assert "tie-down point" in draw.legend_of(hold)
    assert "of a net" not in draw.legend_of(demo().network.holds["SR-AFT"])
    bare = replace(hold, tie_down=None)
    assert "tie-down point" not in draw.legend_of(bare)


def test_tie_down_points_stand_where_they_are() -> None:
    hold, _ = bulk()
    plan = layout(hold, upright=True, numbered=True)
    first, second = plan.points["T1"].spot.middle, plan.points["T2"].spot.middle
    assert first[0] < second[0]  # left of it, and level with it
    assert abs(first[1] - second[1]) <= 6
    assert layout(hold, upright=True).points == {}  # a step's view is no place for them


def test_stowing_fills_the_section_and_people_are_inside() -> None:
    hold, types = bulk()
    step = traced(hold, Stow("u51", 2, ("outside", "50", "51")), {"u51": "51"})
    scene = scene_of(hold, step, units_of(hold, "TLP"))
    assert scene.moving == "u51"
    assert not scene.nobody
    assert scene.stand is Stand.INSIDE
    plan = layout(hold, upright=True)
    laid = picture(hold, types, plan, scene)
    (load,) = [unit for unit in laid.units if not unit.ghost]
    section = plan.bays["51"]
    assert load.box.width == pytest.approx(section.width - 4)
    assert load.box.height == pytest.approx(section.height - 4)
    assert laid.sign == "you"
    assert "You stand inside" in " ".join(laid.caption)


@pytest.mark.parametrize("upright", [True, False])
def test_the_list_of_controls_lies_off_every_platform(upright: bool) -> None:
    for name, (hold, _) in kinds().items():
        plan = layout(hold, upright=upright)
        struck = [
            (row.name, door)
            for row in plan.rows
            for door, platform in plan.platforms.items()
            if row.box.overlaps(platform)
        ]
        assert not struck, name


def test_a_pushed_unit_is_not_said_to_move_in_an_empty_hold() -> None:
    """Those who push are inside; only where rollers move it nobody is."""
    hold, types = kinds()["MR-FWD"]
    units = units_of(hold, next(iter(types)))
    plan, way = layout(hold, upright=True), ("23", "outside")
    said = {
        type(step): " ".join(
            picture(hold, types, plan, scene_of(hold, traced(hold, step, {"u23": "23"}), units)).caption
        )
        for step in (Push("u23", 5, way), Drive("u23", {}, way))
    }
    assert "Nobody in the hold" not in said[Push]
    assert "only those who push" in said[Push]
    assert "Nobody in the hold" in said[Drive]
