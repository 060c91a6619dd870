"""What must be so of every plan view, measured: what lies on what, what is off the sheet, how small it is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import combinations, pairwise

from procgen.draw.frame import SHEET_WIDTH, TEXT, Box
from procgen.draw.layout import Layout
from procgen.draw.picture import Picture

_DOOR = 2.25
_RAIL = 1.3
_WAY = 1.5
"""Half the width of the lines, as diagram.css has them."""
_RING = 2.5
"""From a symbol to the ring around it."""


def overlapping(boxes: Mapping[str, Box]) -> list[tuple[str, str]]:
    """Each pair of boxes that share area."""
    return [(a, b) for (a, one), (b, two) in combinations(boxes.items(), 2) if one.overlaps(two)]


def texts(plan: Layout, laid: Picture | None = None) -> dict[str, Box]:
    """The room of every text, by what it is; symbols, which carry a letter, are not among them."""
    boxes = {f"bay {name}": box for name, box in plan.bay_names.items()}
    boxes |= {f"name of point {name}": mark.label for name, mark in plan.points.items()}
    boxes |= {f"row {row.name}": row.box for row in plan.rows}
    boxes |= {"forward": plan.forward, "caption": plan.caption}
    if laid is not None:
        boxes |= {f"unit {u.name}": u.label.box for u in laid.units if u.label is not None}
        boxes |= {f"name of {name}": label.box for name, label in laid.names}
    return boxes


def _outline(box: Box, half: float) -> list[Box]:
    left, top, right, bottom = box.left, box.top, box.right, box.bottom
    sides = ((left, top, right, top), (left, bottom, right, bottom), (left, top, left, bottom))
    return [Box(*side).grown(half) for side in (*sides, (right, top, right, bottom))]


def marks(plan: Layout, laid: Picture | None = None) -> Iterator[tuple[str, Box]]:
    """What is drawn and has no text: door lines, rails, platforms, and at a step the way and the rings."""
    for name, edge in plan.door_lines.items():
        yield f"door line {name}", Box(*edge.start, *edge.end).grown(_DOOR)
    for name, edges in plan.lines.items():
        for edge in edges:
            yield f"rail {name}", Box(*edge.start, *edge.end).grown(_RAIL)
    for name, box in plan.platforms.items():
        for side in _outline(box, 0.5):
            yield f"platform {name}", side
    for name, mark in plan.points.items():
        yield f"point {name}", mark.spot
    if laid is None:
        return
    for (u, v), (to_u, to_v) in pairwise(laid.way):
        box = Box(min(u, to_u), min(v, to_v), max(u, to_u), max(v, to_v))
        yield "way", box.grown(_WAY)
    rows = {row.box for row in plan.rows}
    for ring in laid.rings:
        if ring not in rows:
            for side in _outline(ring, 1.1):
                yield "ring", side


def struck(plan: Layout, laid: Picture | None = None) -> list[tuple[str, str]]:
    """Each text with what it lies on: other text, a symbol, a person, or a line."""
    words = texts(plan, laid)
    solid = {f"restraint {name}": box for name, box in plan.spots.items()}
    if laid is not None and laid.person is not None:
        solid["person"] = laid.person
    found = overlapping({**words, **solid})
    found += [(a, b) for a, one in words.items() for b, two in marks(plan, laid) if one.overlaps(two)]
    return found


def off_its_own(plan: Layout, laid: Picture | None = None) -> list[str]:
    """Names of bays and of units that do not lie within the bay or the unit that they name."""
    found = [f"bay {name}" for name, box in plan.bay_names.items() if not box.within(plan.bays[name])]
    for unit in laid.units if laid is not None else ():
        if unit.label is not None and not unit.label.box.within(unit.box):
            found.append(f"unit {unit.name}")
    return found


def off_the_sheet(plan: Layout, laid: Picture | None = None) -> list[str]:
    """Whatever does not lie within the sheet."""
    boxes = {**texts(plan, laid), **{f"restraint {name}": box for name, box in plan.spots.items()}}
    boxes |= {f"platform {name}": box for name, box in plan.platforms.items()}
    if laid is not None and laid.person is not None:
        boxes["person"] = laid.person
    return [name for name, box in boxes.items() if not box.within(plan.sheet)]


def text_height(plan: Layout, room: float = SHEET_WIDTH) -> float:
    """The height of text in pixels where the sheet is fitted into this room; never enlarged here."""
    return TEXT * min(1.0, room / plan.width)
