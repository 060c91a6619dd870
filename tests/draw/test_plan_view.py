"""Plan views: to scale, legible on a phone, nothing on top of anything else, the same every time."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator, Mapping
from dataclasses import replace

import pytest

from procgen import draw
from procgen.draw.layout import layout
from procgen.model.hold import Hold
from procgen.model.step import CheckItems, Drive, PlannedUnit, Raise, Step
from procgen.model.unit import UnitType
from procgen.model.words import RestraintState
from procgen.results.state import state_at_rest
from tests.draw.laws import wrong
from tests.draw.scenes import moments, traced, units_of
from tests.support import demo, demo_hold, demo_with

HOLDS = ("SR-AFT", "TR-FWD")
UNIT_TYPE = {"SR-AFT": "AKH", "TR-FWD": "AKE"}
SVG = "{http://www.w3.org/2000/svg}"


def unit_types() -> Mapping[str, UnitType]:
    return demo().network.unit_types


def parsed(svg: str) -> ET.Element:
    return ET.fromstring(svg.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1))


@pytest.mark.parametrize("upright", [True, False])
def test_bays_are_to_scale(upright: bool) -> None:
    hold = demo_hold("TR-FWD")
    plan = layout(hold, upright=upright)
    for name, bay in hold.bays.items():
        along = float(bay.rectangle.x.high.si - bay.rectangle.x.low.si) * plan.frame.scale
        across = float(bay.rectangle.y.high.si - bay.rectangle.y.low.si) * plan.frame.scale
        wide, high = (across, along) if upright else (along, across)
        assert plan.bays[name].width == pytest.approx(wide)
        assert plan.bays[name].height == pytest.approx(high)


def test_forward_and_right_lie_as_the_frame_says() -> None:
    hold = demo_hold("TR-FWD")
    upright, lying = layout(hold, upright=True), layout(hold, upright=False)
    assert upright.bays["11L"].top < upright.bays["14L"].top
    assert upright.bays["11L"].left < upright.bays["11R"].left < upright.platforms["forward-door"].left
    assert lying.bays["11L"].left < lying.bays["14L"].left
    assert lying.platforms["forward-door"].bottom < lying.bays["14R"].top < lying.bays["14L"].top


def test_restraints_stand_where_their_geometry_puts_them() -> None:
    hold = demo_hold("TR-FWD")
    plan = layout(hold, upright=True)
    bays, spots = plan.bays, plan.spots
    between = (bays["13R"].bottom + bays["14R"].top) / 2
    assert spots["lock-13R"].middle[1] == pytest.approx(between)
    assert bays["13R"].left < spots["lock-13R"].middle[0] < bays["13R"].right
    for sill in ("forward-sill-lock", "aft-sill-lock", "forward-sill-stop", "aft-sill-stop"):
        assert spots[sill].middle[0] > bays["14R"].right - 1
    # The word in the name orders those that share an edge.
    assert spots["forward-sill-lock"].top < spots["aft-sill-lock"].top
    assert spots["right-end-stop"].middle[1] < bays["11R"].top + 1
    assert spots["right-aft-stop"].middle[1] > bays["14R"].bottom - 1
    # Guides beside the doorway bay stand along the way of the unit that comes in, by the door.
    assert spots["forward-doorway-guide"].middle[1] == pytest.approx(between)
    assert spots["aft-doorway-guide"].middle[1] > bays["14R"].bottom - 1
    assert spots["forward-doorway-guide"].middle[0] > spots["lock-13R"].middle[0]
    # A rail beside both rows stands between them, and is a line.
    middle = (bays["11L"].right + bays["11R"].left) / 2
    assert all(edge.start[0] == pytest.approx(middle) for edge in plan.lines["centre-rail"])


def views(name: str) -> Iterator[tuple[Step, str]]:
    hold = demo_hold(name)
    steps = list(moments(hold))
    svgs = draw.step_views(
        hold, unit_types(), [("A step", t) for t in steps], units_of(hold, UNIT_TYPE[name])
    )
    yield from zip([t.step for t in steps], svgs, strict=True)


@pytest.mark.parametrize("name", HOLDS)
def test_step_views_are_small_well_formed_and_told_in_words(name: str) -> None:
    sheet = draw.symbols(demo_hold(name))
    known = set(re.findall(r'id="([^"]+)"', sheet))
    for step, svg in views(name):
        # A look at every item of a full hold at once is the most there can be.
        assert len(svg.encode()) < (5120 if isinstance(step, CheckItems) else 4096)
        root = parsed(svg)
        assert root.find(f"{SVG}title") is not None
        assert (root.findtext(f"{SVG}desc") or "").endswith(".")
        assert set(re.findall(r'href="#([^"]+)"', svg)) <= known
        assert all(line.count("<") <= 2 for line in svg.splitlines())  # one element a line


@pytest.mark.parametrize("name", HOLDS)
@pytest.mark.parametrize("upright", [True, False])
def test_a_plan_view_stands_alone(name: str, upright: bool) -> None:
    svg = draw.plan_view(demo_hold(name), unit_types(), None, {}, upright=upright)
    parsed(svg)
    assert set(re.findall(r'href="#([^"]+)"', svg)) <= set(re.findall(r'id="([^"]+)"', svg))
    for number in range(1, len(demo_hold(name).restraints) + 1):
        assert f">{number}</text>" in svg


def test_the_same_hold_gives_the_same_bytes() -> None:
    assert list(views("TR-FWD")) == list(views("TR-FWD"))
    assert draw.hold_views(demo_hold("TR-FWD")) == draw.hold_views(demo_hold("TR-FWD"))


def test_each_state_has_its_symbol() -> None:
    hold = demo_hold("SR-AFT")
    units = units_of(hold, "AKH")
    way = ("44", "43", "42")
    drive = Drive("u42", {"stick": "forward", "guide-switch": "forward"}, way)
    step = traced(hold, drive, {"u42": "42"}, passed=("side-guide",))
    (svg,) = draw.step_views(hold, unit_types(), [("", step)], units)
    assert '<use href="#pg-guide-held"' in svg
    (svg,) = draw.step_views(hold, unit_types(), [("", replace(step, passed=("sill-stop",)))], units)
    assert '<use href="#pg-stop-pushed"' in svg
    stuck = replace(step.after, stuck={"lock-41": RestraintState.LOWERED})
    (svg,) = draw.step_views(hold, unit_types(), [("", replace(step, after=stuck))], units)
    assert '<use href="#pg-lock-dead"' in svg
    raised = traced(hold, Raise("lock-42"), {"u42": "42"})
    (svg,) = draw.step_views(hold, unit_types(), [("", raised)], units)
    assert '<use href="#pg-lock-up"' in svg
    assert '<use href="#pg-lock-down"' in svg
    assert ">lock 42</text>" in svg


def test_a_move_shows_its_way_and_that_nobody_is_inside() -> None:
    hold = demo_hold("SR-AFT")
    state = state_at_rest(hold, {"u42": "42"})
    units = {"u42": PlannedUnit("u42", "AKH", "42")}
    svg = draw.plan_view(hold, unit_types(), state, units, moving=("u42", ("44", "43", "42")))
    assert 'class="pg-way"' in svg
    assert 'class="pg-ghost"' in svg
    assert "Nobody in the hold" in svg
    assert "u42 moves 44 to 43 to 42" in svg


def test_a_unit_outside_is_drawn_on_the_platform_only_while_it_matters() -> None:
    hold = demo_hold("SR-AFT")
    units = units_of(hold, "AKH")
    gone = traced(hold, Raise("sill-lock"), {"u41": "outside", "u42": "outside"})
    (svg,) = draw.step_views(hold, unit_types(), [("", gone)], units)
    assert "u41</text>" not in svg
    leaving = traced(hold, Drive("u44", {}, ("44", "outside")), {"u44": "outside", "u43": "outside"})
    (svg,) = draw.step_views(hold, unit_types(), [("", leaving)], units)
    assert "u44</text>" in svg
    assert "u43</text>" not in svg


def mirrored() -> Hold:
    """The twin-row hold with its door on the left."""
    text = "    side: right\n    x: [13.16 m, 14.92 m]"
    loaded = demo_with("fleet/holds/TR-FWD.yaml", text, text.replace("right", "left"))
    hold = loaded.network.holds.get("TR-FWD") or demo_hold("TR-FWD")
    return replace(hold, doors={n: replace(d, side=type(d.side)("left")) for n, d in hold.doors.items()})


@pytest.mark.parametrize("upright", [True, False])
def test_a_door_on_the_left_is_drawn_on_the_left(upright: bool) -> None:
    plan = layout(mirrored(), upright=upright)
    platform = plan.platforms["forward-door"]
    assert platform.right <= plan.floor.left if upright else platform.top >= plan.floor.bottom
    assert wrong(plan) == []


def test_every_symbol_of_the_legend_is_on_the_sheet() -> None:
    hold = demo_hold("TR-FWD")
    known = set(re.findall(r'id="([^"]+)"', draw.symbols(hold)))
    assert set(re.findall(r'href="#([^"]+)"', draw.legend_of(hold))) <= known
    assert "held down by a control" in draw.legend_of(hold)


def test_words_from_the_data_cannot_break_the_markup() -> None:
    hold = demo_hold("SR-AFT")
    odd = replace(hold.restraints["lock-42"], title='lock <b>"42"</b> & more')
    hold = replace(hold, restraints={**hold.restraints, "lock-42": odd})
    (svg,) = draw.step_views(
        hold, unit_types(), [("<&>", traced(hold, Raise("lock-42"), {}))], units_of(hold, "AKH")
    )
    parsed(svg)
    parsed(draw.plan_view(hold, unit_types(), None, {}))
