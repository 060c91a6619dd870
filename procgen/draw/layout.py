"""Where everything stands on the sheet, before a line of markup is written.

The layout holds what does not change from step to step: floor, bays, restraints, the loader platforms
outside the doors, and the list of doors, panels and controls outside by the door.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from procgen.draw.edges import Edge, Edges
from procgen.draw.frame import LINE, SHEET_WIDTH, Box, Frame, metres, text_width, widest
from procgen.draw.labels import Label, name_within
from procgen.draw.names import TieDownMark, bay_names, tie_down_marks, walls
from procgen.draw.obstacles import doors, outlines, rails, ringed
from procgen.draw.rows import Row, listed
from procgen.draw.spots import spots_of
from procgen.model.hold import Hold

_BAY_SIDE = 64.0
"""How long the shortest side of a bay is on the sheet."""
_MARGIN = 10.0
_HEAD = 22.0
"""Room at the top for the word that says which way forward is."""
_SILL_GAP = 12.0
"""From the floor's edge to the loader platform: room for the symbols at the sill."""
_LEAST_PLATFORM = 40.0
"""Room enough on a platform for the name of a unit."""
_CAPTION = 2 * LINE + 4
_APART = 3.0
"""Between the name of a bay and that of a tie-down point, so that they are not read as one."""
_OFF_PLATFORM = 3.0
"""Between a loader platform and the list beside it."""
_COLUMN = 95.0
"""The least width of a column of the list of controls."""


@dataclass(frozen=True, slots=True)
class Layout:
    """The standing parts of one hold's plan view; boxes are in sheet units."""

    frame: Frame
    width: float
    height: float
    floor: Box
    bays: Mapping[str, Box]
    bay_names: Mapping[str, Box]
    spots: Mapping[str, Box]
    lines: Mapping[str, tuple[Edge, ...]]
    platforms: Mapping[str, Box]
    door_lines: Mapping[str, Edge]
    rows: tuple[Row, ...]
    caption: Box
    forward: Box
    numbered: bool = False
    points: Mapping[str, TieDownMark] = field(default_factory=dict)
    door_names: Mapping[str, Label] = field(default_factory=dict)

    @property
    def sheet(self) -> Box:
        """The whole sheet."""
        return Box(0, 0, self.width, self.height)

    def labelled(self) -> Mapping[str, Box]:
        """Everything that carries text or a letter, by what it is."""
        return {
            **{f"bay {name}": box for name, box in self.bay_names.items()},
            **{f"restraint {name}": box for name, box in self.spots.items()},
            **{f"point {name}": mark.spot for name, mark in self.points.items()},
            **{f"name of point {name}": mark.label for name, mark in self.points.items()},
            **{f"row {row.name}": row.box for row in self.rows},
            **{f"door {name}": label.box for name, label in self.door_names.items()},
            "caption": self.caption,
            "forward": self.forward,
        }


def _forward_word(
    frame: Frame, floor: Box, platforms: Mapping[str, Box], sheet_width: float, taken: list[Box]
) -> Box:
    """Room for the word that says which way forward is: over the hold, or under it and off any platform."""
    width = text_width("<< FORWARD", bold=True)
    if frame.upright:
        left = min(floor.left, sheet_width - width - 2)
        shifts = sorted(range(-int(left - 2), int(sheet_width - 2 - width - left) + 1), key=abs)
        words = [Box(left + by, 1.0, left + by + width, 1.0 + LINE) for by in (0, *shifts)]
        return next((box for box in words if not any(box.overlaps(o) for o in taken)), words[0])
    box = Box(floor.left, floor.bottom + 3, floor.left + width, floor.bottom + 3 + LINE)
    for platform in sorted(platforms.values(), key=lambda other: other.left):
        if box.overlaps(platform.grown(_SILL_GAP)):
            left = platform.right + 4
            box = Box(left, box.top, left + width, box.bottom)
    return box


def layout(hold: Hold, *, upright: bool, numbered: bool = False) -> Layout:
    """Lay out a hold. `numbered` gives every restraint a place for its number, lines too."""
    scale = _scale(hold, upright)
    frame, width, region = _frame(hold, scale, upright, states=not numbered)
    floor = frame.box(hold.floor.rectangle)
    bays = {name: frame.box(bay.rectangle) for name, bay in hold.bays.items()}
    edges = Edges(hold, frame, bays)
    standing = {name: edges.standing(item) for name, item in hold.restraints.items()}
    lines = {
        name: standing[name].edges
        for name, item in hold.restraints.items()
        if edges.is_line(item, standing[name])
    }
    spots = spots_of({n: s for n, s in standing.items() if numbered or n not in lines})
    platforms, door_lines = _doors(hold, frame, floor, bays)
    low = max([floor.bottom + (LINE + 4 if not upright else 6)] + [box.bottom for box in platforms.values()])
    rows = _rows(hold, region, Box(_MARGIN, low + 4, width - _MARGIN, low + 4), states=not numbered)
    low = max([low] + [row.box.bottom for row in rows])
    caption = Box(_MARGIN, low + 4, width - _MARGIN, low + 4 + _CAPTION)
    names = bay_names(hold, bays, spots, rails(lines))
    around_it = [*ringed(spots.values()), *(row.box for row in rows)]
    forward = _forward_word(frame, floor, platforms, width, around_it)
    sheet = Box(0, 0, width, caption.top)
    words = [box.grown(_APART) for box in names.values()]
    door_names = _door_names(hold, platforms, list(spots.values())) if numbered else {}
    taken = [*spots.values(), *words, *(row.box for row in rows), forward]
    taken += [label.box for label in door_names.values()]
    thin = [*walls(floor), *outlines(platforms), *rails(lines), *doors(door_lines)]
    return Layout(
        frame=frame,
        width=width,
        height=caption.bottom + 2,
        floor=floor,
        bays=bays,
        bay_names=names,
        spots=spots,
        lines=lines,
        platforms=platforms,
        door_lines=door_lines,
        rows=rows,
        caption=caption,
        forward=forward,
        numbered=numbered,
        points=tie_down_marks(hold, frame, sheet, taken, thin) if numbered else {},
        door_names=door_names,
    )


def _scale(hold: Hold, upright: bool) -> float:
    """So that a bay's shortest side has room for its name; upright no wider than a phone shows legibly."""
    sides = [
        high - low
        for bay in hold.bays.values()
        for low, high in (metres(bay.rectangle.x), metres(bay.rectangle.y))
    ]
    scale = _BAY_SIDE / min(sides) if sides else 40.0
    if not upright:
        return scale
    y_low, y_high = metres(hold.floor.rectangle.y)
    aprons = max(1, len({door.side for door in hold.doors.values()}))
    beside = aprons * (_SILL_GAP + _LEAST_PLATFORM + 4) + (2 - aprons) * _MARGIN
    return min(scale, (widest(SHEET_WIDTH) - beside) / (y_high - y_low))


def _frame(hold: Hold, scale: float, upright: bool, *, states: bool) -> tuple[Frame, float, Box]:
    """The frame, the sheet's width, and the region outside that the list of controls may take."""
    floor = hold.floor.rectangle
    x_low, x_high = metres(floor.x)
    y_low, y_high = metres(floor.y)
    sides = {str(door.side) for door in hold.doors.values()} or {"right"}
    apron = _SILL_GAP + _deepest(hold, scale, upright) + 4
    main = str(next(iter(hold.doors.values())).side) if hold.doors else "right"
    free = _free_stretch(hold, x_low, x_high)
    if upright:
        across = (y_high - y_low) * scale
        other = apron if len(sides) > 1 else _MARGIN
        beside = max(apron, SHEET_WIDTH - across - other)
        left = beside if main == "left" else other
        frame = Frame(True, scale, floor, left, _HEAD)
        width = across + beside + other
        top, bottom = _HEAD + (free[0] - x_low) * scale, _HEAD + (free[1] - x_low) * scale
        edge = left + across
        region = (
            Box(edge + 12, 2 if free[0] <= x_low else top + _OFF_PLATFORM, width - 3, bottom - 6)
            if main == "right"
            else Box(3, 2 if free[0] <= x_low else top + _OFF_PLATFORM, left - 12, bottom - 6)
        )
        return frame, width, region
    width = max(SHEET_WIDTH, (x_high - x_low) * scale + 2 * _MARGIN)
    left = (width - (x_high - x_low) * scale) / 2
    start, end = left + (free[0] - x_low) * scale + _OFF_PLATFORM, left + (free[1] - x_low) * scale - 6
    strip = apron + 2 if "right" in sides else _MARGIN
    region = Box(start, 2, end, 2)
    if main == "right" and region.width >= _COLUMN:
        rows = listed(hold, region, _columns(region), states=states)
        strip = max([strip] + [row.box.bottom + 8 for row in rows])
        region = Box(start, 2, end, strip)
    return Frame(False, scale, floor, left, strip), width, region


def _deepest(hold: Hold, scale: float, upright: bool) -> float:
    """How far loader platforms reach out on the sheet: as deep as the deepest bay, but upright no further
    than the sheet of a phone goes.
    """
    spans = [metres(bay.rectangle.y) for bay in hold.bays.values()]
    deep = max([high - low for low, high in spans] or [1.0]) * scale
    if not upright:
        return deep
    y_low, y_high = metres(hold.floor.rectangle.y)
    left_over = SHEET_WIDTH - (y_high - y_low) * scale
    if len({door.side for door in hold.doors.values()}) > 1:
        return min(deep, max(left_over / 2 - _SILL_GAP - 4, _LEAST_PLATFORM))
    return min(deep, max(left_over - _MARGIN - _SILL_GAP - 4, _LEAST_PLATFORM))


def _door_names(hold: Hold, platforms: Mapping[str, Box], taken: list[Box]) -> dict[str, Label]:
    """The name of each door on its platform, where it has room there; it stands in the list too."""
    named = {name: name_within(box, hold.doors[name].title, taken) for name, box in platforms.items()}
    return {name: label for name, label in named.items() if label is not None}


def _columns(area: Box) -> int:
    return max(1, min(4, int(area.width // _COLUMN)))


def _rows(hold: Hold, region: Box, below: Box, *, states: bool) -> tuple[Row, ...]:
    """The list in its region outside the door, or, where that is too small, below the hold."""
    if region.width >= _COLUMN:
        columns = _columns(region) if region.width > region.height else 1
        rows = listed(hold, region, columns, states=states)
        if all(row.box.bottom <= region.bottom for row in rows):
            return rows
    return listed(hold, below, _columns(below), states=states)


def _free_stretch(hold: Hold, x_low: float, x_high: float) -> tuple[float, float]:
    """The longest piece of the hold's length with no door and no loader platform beside it."""
    spans = [(metres(door.x), _platform_span(hold, name)) for name, door in hold.doors.items()]
    taken = sorted((min(a[0], b[0]), max(a[1], b[1])) for a, b in spans)
    best, start = (x_low, x_low), x_low
    for low, high in [*taken, (x_high, x_high)]:
        if low - start > best[1] - best[0]:
            best = (start, low)
        start = max(start, high)
    return best


def _platform_span(hold: Hold, door: str) -> tuple[float, float]:
    """Where the loader platform of a door lies in x: before its bay, or before the door if it has several."""
    at_door = [bay.rectangle.x for bay in hold.bays.values() if bay.door == door]
    return metres(at_door[0]) if len(at_door) == 1 else metres(hold.doors[door].x)


def _doors(
    hold: Hold, frame: Frame, floor: Box, bays: Mapping[str, Box]
) -> tuple[dict[str, Box], dict[str, Edge]]:
    platforms: dict[str, Box] = {}
    door_lines: dict[str, Edge] = {}
    y_low, y_high = metres(hold.floor.rectangle.y)
    for name, door in hold.doors.items():
        at_door = [bay.rectangle for bay in hold.bays.values() if bay.door == name]
        x_low, x_high = _platform_span(hold, name)
        deep = max([metres(r.y)[1] - metres(r.y)[0] for r in at_door] or [1.0])
        deep = min(deep, _deepest(hold, frame.scale, frame.upright) / frame.scale)
        gap = _SILL_GAP / frame.scale
        right = str(door.side) == "right"
        low, high = (y_high + gap, y_high + gap + deep) if right else (y_low - gap - deep, y_low - gap)
        platforms[name] = frame.box_of(x_low, x_high, low, high)
        opening = frame.box_of(*metres(door.x), y_low, y_high)
        side = frame.edge(str(door.side))
        if side in ("left", "right"):
            u = floor.right if side == "right" else floor.left
            door_lines[name] = Edge((name,), (u, opening.top), (u, opening.bottom))
        else:
            v = floor.bottom if side == "bottom" else floor.top
            door_lines[name] = Edge((name,), (opening.left, v), (opening.right, v))
    return platforms, door_lines
