"""Two plan views of a hold, as it was and as it is, with what differs marked on both.

A ring marks what is there on both sides and is not the same, a square what only the newer side has, a cross
what only the older side has; a dashed outline on the newer side is where a bay was.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from html import escape
from typing import Any

from procgen.draw.frame import COMPARED_ROOM, Box, widest
from procgen.draw.layout import Layout, layout
from procgen.draw.symbols import symbol_sheet
from procgen.draw.view import base, number, parts_markup
from procgen.model.hold import Hold

_RING = 13.0


def compared_views(was: Hold, now: Hold) -> tuple[str, str] | None:
    """The older and the newer view, each upright and lying; None where nothing that is drawn differs.

    Both are upright only where the text of either, lying beside the other, would be too small.
    """
    if not _differing(was.bays, now.bays) and not _differing(was.restraints, now.restraints):
        return None
    lying = [layout(hold, upright=False, numbered=True).width for hold in (was, now)]
    turns = (True, False) if max(lying) <= widest(COMPARED_ROOM) else (True,)
    return _views(was, now, turns, newer=False), _views(now, was, turns, newer=True)


def _differing(was: Mapping[str, Any], now: Mapping[str, Any]) -> list[str]:
    return [name for name in dict.fromkeys((*was, *now)) if was.get(name) != now.get(name)]


def _views(hold: Hold, other: Hold, turns: tuple[bool, ...], *, newer: bool) -> str:
    plans = [layout(hold, upright=upright, numbered=True) for upright in turns]
    sheet = [*symbol_sheet(), *(line for plan in plans for line in base(hold, plan))]
    views = []
    for plan in plans:
        marks = "\n".join(_marks(hold, other, plan, newer=newer))
        drawn = parts_markup(hold, plan, [])
        views.append(drawn.removesuffix("</svg>") + f'<g class="pg-differs">\n{marks}\n</g>\n</svg>')
    defs = ['<svg class="pg-sheet" width="0" height="0" aria-hidden="true"><defs>', *sheet, "</defs></svg>"]
    return "\n".join([*defs, *views])


def _marks(hold: Hold, other: Hold, plan: Layout, *, newer: bool) -> Iterator[str]:
    for name in _differing(hold.bays, other.bays):
        if name not in hold.bays:
            continue
        box = plan.bays[name]
        if name in other.bays:
            if newer:
                yield _rect(plan.frame.box(other.bays[name].rectangle), "pg-was", f"Bay {name} was here")
            yield _rect(box.grown(-2), "pg-other", f"Bay {name} is not the same")
        else:
            yield _only(box.middle, f"Bay {name}", newer=newer)
    for name in _differing(hold.restraints, other.restraints):
        spot = plan.spots.get(name)
        if spot is None:
            continue
        title = hold.restraints[name].title
        if name in other.restraints:
            u, v = spot.middle
            yield _titled(
                f'<circle class="pg-other" cx="{number(u)}" cy="{number(v)}" r="{number(_RING)}"/>',
                f"{title}: not the same",
            )
        else:
            yield _only(spot.middle, title, newer=newer)


def _only(middle: tuple[float, float], what: str, *, newer: bool) -> str:
    u, v = middle
    left, top, side = u - _RING, v - _RING, 2 * _RING
    if newer:
        mark = (
            f'<rect class="pg-new" x="{number(left)}" y="{number(top)}"'
            f' width="{number(side)}" height="{number(side)}"/>'
        )
        return _titled(mark, f"{what}: new")
    cross = (
        f'<path class="pg-gone" d="M{number(left)} {number(top)}l{number(side)} {number(side)}'
        f'm0 {number(-side)}l{number(-side)} {number(side)}"/>'
    )
    return _titled(cross, f"{what}: gone")


def _rect(box: Box, css: str, title: str) -> str:
    mark = (
        f'<rect class="{css}" x="{number(box.left)}" y="{number(box.top)}"'
        f' width="{number(box.width)}" height="{number(box.height)}"/>'
    )
    return _titled(mark, title)


def _titled(mark: str, title: str) -> str:
    return f"<g><title>{escape(title)}</title>{mark}</g>"
