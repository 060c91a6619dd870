"""Drawing holds for every hold that can be described: nothing raises, leaves the sheet or overlaps."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from dataclasses import replace

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from procgen import draw
from procgen.draw.frame import MANUAL_ROOM
from procgen.draw.layout import layout
from procgen.draw.picture import picture
from procgen.draw.scene import scene_of
from procgen.model.hold import Bay, Hold
from procgen.model.stated import Rectangle, Span1
from procgen.model.step import Drive, PlannedUnit
from procgen.model.words import Side
from tests.draw.laws import not_found, too_small, unnamed, wrong
from tests.draw.scenes import moments, traced, units_of
from tests.more_holds import KINDS, any_holds
from tests.strategies import GeneratedHold
from tests.support import demo, demo_hold

ANY = st.sampled_from(["", *KINDS]).flatmap(any_holds)
"""Containers in one row or two, pallets over both, a second door, bulk sections, two lengths, by hand."""

LOOKS = settings(
    max_examples=12,
    deadline=None,
    suppress_health_check=list(HealthCheck),
    phases=[Phase.explicit, Phase.reuse, Phase.generate],
)
"""Not shrunk: a failure names what lies on what, and shrinking a hold takes minutes."""


@given(drawn=ANY)
@LOOKS
def test_any_hold_is_laid_out_so_that_all_can_be_read_and_found(drawn: GeneratedHold) -> None:
    hold = drawn.hold
    for upright in (True, False):
        for numbered in (True, False):
            plan = layout(hold, upright=upright, numbered=numbered)
            assert wrong(plan) == []
            assert not (upright and too_small(plan))
        assert not_found(hold, drawn.unit_types, upright=upright) == []
    views = draw.hold_views(hold)
    ET.fromstring(views.join(("<div>", "</div>")))
    assert ("pg-lying" in views) is not too_small(layout(hold, upright=False, numbered=True), MANUAL_ROOM)


def fitting(drawn: GeneratedHold) -> dict[str, PlannedUnit]:
    """For every bay a unit of the largest base that stands in it, or a loose load."""
    found = {}
    for name, bay in drawn.hold.bays.items():
        along, across = (span.high.si - span.low.si for span in (bay.rectangle.x, bay.rectangle.y))
        types = [
            (one.base.length.si * one.base.width.si, code)
            for code, one in drawn.unit_types.items()
            if not one.loose and one.base.length.si <= along and one.base.width.si <= across
        ]
        loose = [(0, code) for code, one in drawn.unit_types.items() if one.loose]
        _, code = max(loose if bay.bulk else types)
        found[f"u{name}"] = PlannedUnit(f"u{name}", code, name)
    return found


@given(drawn=ANY, part=st.integers(0, 2))
@LOOKS
def test_labels_of_any_step_lie_on_nothing_else(drawn: GeneratedHold, part: int) -> None:
    hold = drawn.hold
    units = fitting(drawn)
    for upright in (True, False):
        plan = layout(hold, upright=upright)
        for step in list(moments(hold))[part::3]:
            scene = scene_of(hold, step, units)
            laid = picture(hold, drawn.unit_types, plan, scene)
            assert wrong(plan, laid) == [], step.step
            assert unnamed(hold, scene, plan, laid) == [], step.step


def wide_bays_and_two_doors() -> Hold:
    """The twin-row hold with a bay across both rows, and a second door on the left at the forward end."""
    hold = demo_hold("TR-FWD")
    left, right = hold.bays["12L"].rectangle, hold.bays["12R"].rectangle
    wide = Bay("12P", Rectangle(left.x, Span1(left.y.low, right.y.high)), True)
    second = replace(
        hold.doors["forward-door"],
        name="second-door",
        title="second door",
        side=Side.LEFT,
        x=hold.bays["11L"].rectangle.x,
    )
    return replace(
        hold,
        bays={**hold.bays, "12P": wide, "11L": replace(hold.bays["11L"], door="second-door")},
        doors={**hold.doors, "second-door": second},
    )


def test_wide_bays_and_two_doors_are_laid_out_too() -> None:
    hold = wide_bays_and_two_doors()
    for upright in (True, False):
        plan = layout(hold, upright=upright)
        assert wrong(plan) == []
        near, far = plan.platforms["forward-door"], plan.platforms["second-door"]
        assert (near.left > plan.floor.right) if upright else (near.bottom < plan.floor.top)
        assert (far.right < plan.floor.left) if upright else (far.top > plan.floor.bottom)
        assert far.within(plan.sheet)
    step = traced(hold, Drive("u11L", {}, ("outside", "11L")), {"u11L": "11L"})
    (svg,) = draw.step_views(hold, demo().network.unit_types, [("", step)], units_of(hold, "AKE"))
    ghost = re.search(r'class="pg-ghost" x="([\d.]+)"', svg)
    assert ghost is not None
    assert float(ghost[1]) < layout(hold, upright=True).floor.left  # it came in by its own door
