"""Drawing holds for every hold that can be described: nothing raises, leaves the sheet or overlaps."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import combinations

from hypothesis import HealthCheck, given, settings

from procgen import draw
from procgen.draw.frame import Box
from procgen.draw.layout import layout
from procgen.draw.picture import picture
from procgen.draw.scene import scene_of
from procgen.model.hold import Bay, Hold
from procgen.model.stated import Rectangle, Span1
from procgen.model.step import Drive
from procgen.model.words import Side
from tests.draw.scenes import moments, traced, units_of
from tests.strategies import GeneratedHold, holds
from tests.support import demo, demo_hold


def overlapping(boxes: dict[str, Box]) -> list[tuple[str, str]]:
    return [(a, b) for (a, one), (b, two) in combinations(boxes.items(), 2) if one.overlaps(two)]


@given(drawn=holds())
@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
def test_any_hold_is_laid_out_without_overlap(drawn: GeneratedHold) -> None:
    for upright in (True, False):
        for numbered in (True, False):
            plan = layout(drawn.hold, upright=upright, numbered=numbered)
            boxes = dict(plan.labelled())
            assert overlapping(boxes) == []
            assert all(box.within(plan.sheet) for box in boxes.values())
    ET.fromstring(draw.hold_views(drawn.hold).join(("<div>", "</div>")))


@given(drawn=holds())
@settings(max_examples=10, deadline=None, suppress_health_check=list(HealthCheck))
def test_labels_of_any_step_lie_on_nothing_else(drawn: GeneratedHold) -> None:
    hold = drawn.hold
    units = units_of(hold, next(iter(drawn.unit_types)))
    for upright in (True, False):
        plan = layout(hold, upright=upright)
        for step in list(moments(hold))[:20]:
            laid = picture(hold, drawn.unit_types, plan, scene_of(hold, step, units))
            names = {f"name of {name}": label.box for name, label in laid.names}
            assert overlapping({**names, **plan.labelled()}) == overlapping(dict(plan.labelled()))


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
        assert overlapping(dict(plan.labelled())) == []
        assert all(box.within(plan.sheet) for box in plan.labelled().values())
        near, far = plan.platforms["forward-door"], plan.platforms["second-door"]
        assert (near.left > plan.floor.right) if upright else (near.bottom < plan.floor.top)
        assert (far.right < plan.floor.left) if upright else (far.top > plan.floor.bottom)
        assert far.within(plan.sheet)
    step = traced(hold, Drive("u11L", {}, ("outside", "11L")), {"u11L": "11L"})
    (svg,) = draw.step_views(hold, demo().network.unit_types, [("", step)], units_of(hold, "AKE"))
    ghost = re.search(r'class="pg-ghost" x="([\d.]+)"', svg)
    assert ghost is not None
    assert float(ghost[1]) < layout(hold, upright=True).floor.left  # it came in by its own door
