"""Plan views of every kind of hold: bulk sections behind nets, mixed bays, by hand, two doors, two ways."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache
from itertools import combinations

import pytest

from procgen import draw
from procgen.draw.frame import SHEET_WIDTH, Box
from procgen.draw.layout import layout
from procgen.draw.names import bay_words, larger
from procgen.draw.picture import picture
from procgen.draw.scene import scene_of
from procgen.model.hold import Hold
from procgen.model.loads import TieDown, TieDownPoint
from procgen.model.step import Drive, Push, Stow
from procgen.model.unit import UnitType
from procgen.model.words import Stand
from procgen.units import of
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


def overlapping(boxes: Mapping[str, Box]) -> list[tuple[str, str]]:
    return [(a, b) for (a, one), (b, two) in combinations(boxes.items(), 2) if one.overlaps(two)]


@pytest.mark.parametrize("upright", [True, False])
def test_nothing_with_text_overlaps_in_any_kind(upright: bool) -> None:
    for hold, _ in each():
        for numbered in (True, False):
            plan = layout(hold, upright=upright, numbered=numbered)
            boxes = plan.labelled()
            assert overlapping(boxes) == [], hold.name
            listed = [row.box for row in plan.rows]
            assert not any(row.overlaps(box) for row in listed for box in plan.platforms.values()), hold.name
            assert [name for name, box in boxes.items() if not box.within(plan.sheet)] == [], hold.name


@pytest.mark.parametrize("last_first", [True, False])
def test_nothing_with_text_overlaps_at_any_step_of_any_kind(last_first: bool) -> None:
    for hold, types in each():
        plan = layout(hold, upright=True)
        units = units_of(hold, next(iter(types)))
        for step in moments(hold, last_first=last_first):
            laid = picture(hold, types, plan, scene_of(hold, step, units))
            boxes = {**plan.labelled(), **laid.labelled()}
            assert overlapping(boxes) == [], (hold.name, step.step)


def test_every_named_part_is_found_in_the_view_of_parts() -> None:
    for hold, types in each():
        for upright in (True, False):
            svg = draw.plan_view(hold, types, None, {}, upright=upright)
            texts = re.findall(r"<text[^>]*>([^<]*)</text>", svg)
            words = " ".join(texts)
            assert {bay_words(hold, bay) for bay in hold.bays} <= set(texts), hold.name
            assert {str(n) for n in range(1, len(hold.restraints) + 1)} <= set(texts), hold.name
            assert set(hold.tie_down.points if hold.tie_down else {}) <= set(texts), hold.name
            named = [one.title for one in hold.doors.values()] + [one.title for one in hold.panels.values()]
            for title in (*named, *(one.title for one in hold.controls.values())):
                assert all(word in words for word in title.split()), (hold.name, title)


def test_upright_views_fit_the_narrowest_phone() -> None:
    for hold, _ in each():
        plan = layout(hold, upright=True)
        # Text shrinks with a sheet that is wider than the phone; it stays at 9 pixels or more.
        assert 10 * min(1.0, SHEET_WIDTH / plan.width) >= 9, hold.name


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
