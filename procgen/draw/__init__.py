"""Draw holds: plan views as SVG text, to scale, from the hold's own geometry.

Layout (where things stand) is apart from markup (how they are written). Symbols are our own; their
meaning is told by `legend_of`. Colours and line widths come from the page's style sheet.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from procgen.draw.changed import compared_views
from procgen.draw.chart_markup import chart_markup
from procgen.draw.charts import limit_charts
from procgen.draw.frame import MANUAL_ROOM, widest
from procgen.draw.layout import layout
from procgen.draw.nose_share import nose_share_chart
from procgen.draw.picture import picture
from procgen.draw.scene import Scene, scene_of
from procgen.draw.symbols import legend, symbol_sheet
from procgen.draw.view import base, parts_markup, scene_markup
from procgen.model.hold import Hold
from procgen.model.step import PlannedUnit
from procgen.model.unit import UnitType
from procgen.model.words import RestraintKind
from procgen.results.stability import Gear, HoldOrder
from procgen.results.state import State
from procgen.results.trace import TracedStep

__all__ = [
    "compared_views",
    "hold_views",
    "legend_of",
    "limit_charts",
    "plan_view",
    "stability_chart",
    "step_views",
    "symbols",
]


def plan_view(
    hold: Hold,
    unit_types: Mapping[str, UnitType],
    state: State | None,
    units: Mapping[str, PlannedUnit],
    *,
    moving: tuple[str, tuple[str, ...]] | None = None,
    upright: bool = False,
) -> str:
    """One complete SVG of the hold, symbols included.

    Without a state, every restraint carries its number in the order of the description. With one, its
    state is shown, the units stand where they are, and `moving` (a unit, the places it passes) is drawn
    as a way.
    """
    if state is None:
        numbered = layout(hold, upright=upright, numbered=True)
        return parts_markup(hold, numbered, [*symbol_sheet(), *base(hold, numbered)])
    plan = layout(hold, upright=upright)
    unit, way = moving if moving is not None else (None, ())
    scene = Scene(state, units, moving=unit, way=way, nobody=unit is not None)
    laid = picture(hold, unit_types, plan, scene)
    title = f"Plan view of {hold.name}, {hold.title}"
    return scene_markup(hold, plan, scene, laid, title, [*symbol_sheet(), *base(hold, plan)])


def step_views(
    hold: Hold,
    unit_types: Mapping[str, UnitType],
    steps: Sequence[tuple[str, TracedStep]],
    units: Mapping[str, PlannedUnit],
    *,
    upright: bool = True,
) -> tuple[str, ...]:
    """One SVG for each step and its title: the state after it, or the move itself.

    They need `symbols` of the same hold on their page.
    """
    plan = layout(hold, upright=upright)
    views = []
    for title, traced in steps:
        scene = scene_of(hold, traced, units)
        laid = picture(hold, unit_types, plan, scene)
        views.append(scene_markup(hold, plan, scene, laid, title, []))
    return tuple(views)


def symbols(hold: Hold, *, upright: bool = True) -> str:
    """The symbols and the standing parts of a hold that step views use: once on a page, not shown."""
    lines = [*symbol_sheet(), *base(hold, layout(hold, upright=upright))]
    return "\n".join(
        ['<svg class="pg-sheet" width="0" height="0" aria-hidden="true"><defs>', *lines, "</defs></svg>"]
    )


def hold_views(hold: Hold) -> str:
    """The hold with numbered parts, upright for a phone and lying for a desk, with the symbols it needs.

    A hold so long that lying its text would be too small at a desk is drawn upright only.
    """
    plans = [layout(hold, upright=upright, numbered=True) for upright in (True, False)]
    plans = [plan for plan in plans if plan.frame.upright or plan.width <= widest(MANUAL_ROOM)]
    sheet = [*symbol_sheet(), *(line for plan in plans for line in base(hold, plan))]
    views = [parts_markup(hold, plan, []) for plan in plans]
    return "\n".join(
        [
            '<svg class="pg-sheet" width="0" height="0" aria-hidden="true"><defs>',
            *sheet,
            "</defs></svg>",
            *views,
        ]
    )


def legend_of(hold: Hold) -> str:
    """What the symbols of this hold's views mean, as a list. It needs `symbols` on its page."""
    present = {item.kind for item in hold.restraints.values()}
    return legend(
        tuple(kind for kind in RestraintKind if kind in present),
        points=hold.tie_down is not None and bool(hold.tie_down.points),
        shared=any(hold.overlapping(name) for name in hold.bays),
    )


def stability_chart(title: str, gear: Gear, order: HoldOrder) -> str:
    """The nose gear share after each step of a sequence, with the least one allowed, as one SVG."""
    return chart_markup(nose_share_chart(title, gear, order))
