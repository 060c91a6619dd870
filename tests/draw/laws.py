"""What must be so of every plan view, measured: what lies on what, what is off the sheet, how small it is."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from html import unescape
from itertools import combinations, pairwise

from procgen import draw
from procgen.draw.frame import LEAST_TEXT, SHEET_WIDTH, TEXT, Box
from procgen.draw.layout import Layout
from procgen.draw.names import bay_words
from procgen.draw.picture import Picture
from procgen.draw.scene import Scene
from procgen.model.hold import Hold
from procgen.model.unit import UnitType

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
    boxes |= {f"name of door {name}": label.box for name, label in plan.door_names.items()}
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
    for unit in laid.units if laid is not None else ():
        edges = [side for side in _outline(unit.box, 1.3) if side.width > side.height]
        for name in (a for a in words if a.startswith(("name of", "unit"))):
            if any(words[name].overlaps(edge) for edge in edges):
                found.append((name, f"edge of {unit.name} along it"))
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


def too_small(plan: Layout, room: float = SHEET_WIDTH) -> bool:
    """Whether text is under nine pixels where the sheet is fitted into this room, by default a phone's."""
    return TEXT * min(1.0, room / plan.width) < LEAST_TEXT


def wrong(plan: Layout, laid: Picture | None = None) -> list[object]:
    """All that is wrong with a view."""
    return [*struck(plan, laid), *off_its_own(plan, laid), *off_the_sheet(plan, laid)]


def unnamed(hold: Hold, scene: Scene, plan: Layout, laid: Picture) -> list[str]:
    """Restraints worked or looked at that are not named whole, by the symbol or by number and key.

    One alone may be named in the caption, which can mean no other ring then.
    """
    names = {name: " ".join(label.lines) for name, label in laid.names}
    caption = " ".join(laid.caption)
    touched = [name for name in scene.touched if name in hold.restraints]
    found = []
    for position, name in enumerate(hold.restraints, start=1):
        title = hold.restraints[name].title
        keyed = names.get(name) == str(position) and f"{position} {title}" in caption
        alone = len(touched) == 1 and title in caption
        if name in touched and names.get(name) != title and not keyed and not alone:
            found.append(name)
    return found


def not_found(hold: Hold, types: Mapping[str, UnitType], *, upright: bool) -> list[str]:
    """Parts that a reader of the view of parts does not find by their whole title, or by number and key."""
    svg = draw.plan_view(hold, types, None, {}, upright=upright)
    said = [unescape(text) for text in re.findall(r"<text[^>]*>([^<]*)</text>", svg)]
    whole = {" ".join(said[start:end]) for start in range(len(said)) for end in range(start + 1, start + 9)}
    keyed = set(re.findall(r"<g><title>([^<]*)</title><use [^>]*/><text[^>]*>(\d+)</text></g>", svg))
    keys = {(unescape(title), number) for title, number in keyed}
    parts = [bay_words(hold, bay) for bay in hold.bays]
    for named in (hold.doors, hold.panels, hold.controls):
        parts += [one.title for one in named.values()]
    parts += [f"{drive.title}: rollers in {', '.join(drive.under)}" for drive in hold.drives.values()]
    parts += hold.tie_down.points if hold.tie_down is not None else ()
    found = [part for part in parts if part not in whole]
    restraints = enumerate(hold.restraints.values(), start=1)
    return found + [item.title for number, item in restraints if (item.title, str(number)) not in keys]
