"""Place what changes from step to step on a layout: units, the way, labels, people, captions.

Where there is no free place for a name beside what it names, it goes into the caption. Nothing that carries
text lies on anything else that does.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise

from procgen.draw.frame import LINE, Box, around, text_width, wrapped
from procgen.draw.labels import Label, in_unit, named, soft_lines
from procgen.draw.layout import Layout
from procgen.draw.scene import Scene
from procgen.model.hold import Hold
from procgen.model.unit import UnitType
from procgen.model.words import OUTSIDE, Stand

_PERSON = (10.0, 15.0)
_SIGN = 16.0
"""Room for a sign at the start of a caption."""


@dataclass(frozen=True, slots=True)
class UnitBox:
    """A unit on the sheet; `ghost` marks the place it came from."""

    name: str
    box: Box
    label: Label | None
    moves: bool
    ghost: bool = False


@dataclass(frozen=True, slots=True)
class Picture:
    """One step laid out."""

    units: tuple[UnitBox, ...]
    way: tuple[tuple[float, float], ...]
    rings: tuple[Box, ...]
    names: tuple[tuple[str, Label], ...]
    person: Box | None
    sign: str
    caption: tuple[str, ...]

    def labelled(self) -> Mapping[str, Box]:
        """Everything that carries text, by what it is."""
        boxes = {f"unit {u.name}": u.label.box for u in self.units if u.label is not None}
        boxes.update({f"name of {name}": label.box for name, label in self.names})
        if self.person is not None:
            boxes["person"] = self.person
        return boxes


def picture(hold: Hold, unit_types: Mapping[str, UnitType], plan: Layout, scene: Scene) -> Picture:
    """Place a scene on a layout."""
    units = tuple(_units(hold, unit_types, plan, scene))
    way = _way(plan, scene, units)
    taken = list(plan.labelled().values()) + [u.label.box for u in units if u.label is not None]
    way_boxes = [
        Box(min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1])).grown(2.5)
        for a, b in pairwise(way)
    ]
    rings = tuple(
        [plan.spots[name].grown(2.5) for name in scene.touched if name in plan.spots]
        + [row.box for row in plan.rows if row.name in scene.touched]
    )
    person = _person(hold, plan, scene, [*taken, *way_boxes])
    if person is not None:
        taken.append(person)
    soft = soft_lines(plan)
    names: list[tuple[str, Label]] = []
    left_over: list[str] = []
    for name in scene.touched:
        if name not in hold.restraints:
            continue
        spot = plan.spots.get(name)
        title = hold.restraints[name].title
        label = named(title, spot, plan.sheet, [*taken, *way_boxes], soft) if spot else None
        if label is None:
            left_over.append(hold.restraints[name].title)
        else:
            names.append((name, label))
            taken.append(label.box)
    sign, caption = _caption(scene, left_over, plan.caption.width - _SIGN - 4)
    return Picture(units, way, rings, tuple(names), person, sign, caption)


def _units(hold: Hold, unit_types: Mapping[str, UnitType], plan: Layout, scene: Scene) -> Iterator[UnitBox]:
    moving, way = scene.moving, scene.way
    taken = [*plan.spots.values(), *plan.bay_names.values()]
    if moving is not None:
        came_from = _place_box(plan, hold, way[0], way)
        if came_from is not None:
            yield UnitBox(moving, _footprint(plan, unit_types, scene, moving, came_from), None, True, True)
    for name, bay in scene.state.units.items():
        if bay == OUTSIDE and name not in scene.at_sill:
            continue
        place = _place_box(plan, hold, bay, way if name == moving else ())
        if place is None:
            continue
        box = _footprint(plan, unit_types, scene, name, place)
        planned = scene.units.get(name)
        lines = (*wrapped(name, box.width - 12, bold=True), planned.unit_type if planned else "")
        text = tuple(line for line in lines if line)[:3]
        width = max(text_width(line, bold=True) for line in text)
        label = Label(text, in_unit(box, width, LINE * len(text), taken))
        taken.append(label.box)
        yield UnitBox(name, box, label, name == moving)


def _place_box(plan: Layout, hold: Hold, place: str, way: tuple[str, ...]) -> Box | None:
    """The bay's box, or the platform of the door at which this way starts or ends."""
    if place != OUTSIDE:
        return plan.bays.get(place)
    for near in way:
        bay = hold.bays.get(near)
        if bay is not None and bay.door is not None and bay.door in plan.platforms:
            return plan.platforms[bay.door]
    return next(iter(plan.platforms.values()), None)


def _footprint(plan: Layout, unit_types: Mapping[str, UnitType], scene: Scene, name: str, place: Box) -> Box:
    """A unit's base in the middle of its place, to scale, kept off the edge so that both can be seen.

    A loose load fills its place.
    """
    planned = scene.units.get(name)
    unit_type = unit_types.get(planned.unit_type) if planned else None
    width, height = place.width - 4, place.height - 4
    if unit_type is not None and not unit_type.loose:
        along = float(unit_type.base.length.si) * plan.frame.scale
        across = float(unit_type.base.width.si) * plan.frame.scale
        wide, high = (across, along) if plan.frame.upright else (along, across)
        width, height = min(width, wide), min(height, high)
    u, v = place.middle
    return around(u, v, width, height)


_OFF = 14.0


def _straight(points: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """The points, each pulled level with the one before it where the two differ by a whisker."""
    level = points[:1]
    for u, v in points[1:]:
        last_u, last_v = level[-1]
        level.append((last_u if abs(u - last_u) < 2 else u, last_v if abs(v - last_v) < 2 else v))
    return level


def _way(plan: Layout, scene: Scene, units: tuple[UnitBox, ...]) -> tuple[tuple[float, float], ...]:
    """A line through the middles of the places passed, ending just inside the unit that moved."""
    if scene.moving is None:
        return ()
    ghost = next((u.box for u in units if u.ghost), None)
    goal = next((u.box for u in units if u.name == scene.moving and not u.ghost), None)
    middles = [plan.bays[name].middle for name in scene.way[1:-1] if name in plan.bays]
    if ghost is None or goal is None:
        return ()
    points = [ghost.middle, *middles]
    u, v = goal.middle
    from_u, from_v = points[-1]
    inside = 13.0
    if abs(from_u - u) > abs(from_v - v):
        end = (goal.right - inside, v) if from_u > u else (goal.left + inside, v)
    else:
        end = (u, goal.bottom - inside) if from_v > v else (u, goal.top + inside)
    # Off the middle, where the symbols on a shared edge and the units' names stand.
    return tuple((pu + _OFF, pv + _OFF) for pu, pv in _straight([*points, end]))


_PACES = sorted((abs(du) + abs(dv), du, dv) for du in range(-100, 101, 5) for dv in range(-60, 61, 5))
"""Where to look for a place to stand: nearest first."""


def _person(hold: Hold, plan: Layout, scene: Scene, taken: list[Box]) -> Box | None:
    """Where the person stands: beside what is worked, in a free bay if inside, off the floor if not."""
    if scene.stand is None or scene.stand_at is None:
        return None
    name = scene.stand_at
    target = plan.spots.get(name) or next((row.box for row in plan.rows if row.name == name), None)
    if target is None:
        return None
    u, v = target.middle
    room = _standing_room(hold, plan, scene, name)
    sheet = plan.sheet
    beside = (target.width + _PERSON[0]) / 2 + 1
    for _, du, dv in [(0, -beside, 0), (0, beside, 0), *_PACES]:
        box = around(u + du, v + dv, *_PERSON)
        # The cheap questions first.
        stands = any(box.within(place) for place in room) if room else not box.overlaps(plan.floor)
        if stands and box.within(sheet) and not any(box.overlaps(other) for other in taken):
            return box
    return None


def _standing_room(hold: Hold, plan: Layout, scene: Scene, name: str) -> list[Box]:
    """Free bays beside an item that is worked inside; nothing for work outside."""
    if scene.stand is not Stand.INSIDE or name not in hold.restraints:
        return []
    item = hold.restraints[name]
    beside = [bay for bay in (item.between or item.beside) if bay in plan.bays]
    full = set(scene.state.units.values())
    free = [bay for bay in beside if bay not in full and not any(o in full for o in hold.overlapping(bay))]
    others = [bay for bay in plan.bays if bay not in full]
    return [plan.bays[bay].grown(-2) for bay in (free or others or list(plan.bays))]


def _caption(scene: Scene, left_over: list[str], width: float) -> tuple[str, tuple[str, ...]]:
    sign, text = "", ""
    if scene.nobody:
        sign, text = "nobody", "Nobody in the hold while it moves."
    elif scene.pushed:
        text = "Nobody in its way; inside are only those who push."
    elif scene.stand is Stand.INSIDE:
        sign, text = "you", "You stand inside."
    elif scene.stand is Stand.OUTSIDE:
        sign, text = "you", "You stand outside."
    if left_over:
        text = f"{text} Ringed: {', '.join(left_over)}.".strip()
    return sign, wrapped(text, width)
