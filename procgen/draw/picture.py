"""Place what changes from step to step on a layout: units, the way, labels, people, captions.

Labels go to the first free place beside what they name; where there is none, the name goes into the
caption. Nothing that carries text lies on anything else that does.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from procgen.draw.frame import Box, around, wrapped
from procgen.draw.labels import Label, name_beside, name_in_unit, name_off_unit
from procgen.draw.layout import Layout
from procgen.draw.obstacles import RING, along, doors, outline, outlines, rails, ringed
from procgen.draw.scene import Scene
from procgen.draw.ways import way_of
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
    unnamed = tuple(_units(hold, unit_types, plan, scene))
    way = _way(plan, scene, unnamed)
    touched = [plan.spots[name] for name in scene.touched if name in plan.spots]
    rings = (
        *(spot.grown(RING) for spot in touched),
        *(row.box for row in plan.rows if row.name in scene.touched),
    )
    drawn = [*along(way), *ringed(touched), *rails(plan.lines), *doors(plan.door_lines)]
    drawn += outlines(plan.platforms)
    standing = [*plan.labelled().values(), *drawn]
    units = _with_names(unnamed, scene, standing)
    person = _person(hold, plan, scene, [*standing, *(u.label.box for u in units if u.label is not None)])
    if person is not None:
        standing.append(person)
    units, names, left_over = _names(hold, plan, scene, standing, units)
    sign, caption = _caption(scene, left_over, plan.caption.width - _SIGN - 4)
    return Picture(units, way, rings, names, person, sign, caption)


def _names(
    hold: Hold, plan: Layout, scene: Scene, standing: list[Box], units: tuple[UnitBox, ...]
) -> tuple[tuple[UnitBox, ...], tuple[tuple[str, Label], ...], list[str]]:
    """The names of the touched restraints, and what the caption has to say of those that find no room.

    Of several restraints, one whose name finds no room carries its number in the table of restraints, and
    the caption says what it is; where one finds no room even for that, all carry their numbers.
    """
    order = list(hold.restraints)
    touched = {name: hold.restraints[name].title for name in scene.touched if name in hold.restraints}
    drawn = {name: plan.spots[name] for name in touched if name in plan.spots}
    found = None
    for numbers_only in (False, True) if len(touched) > 1 else (False,):
        moved, names = units, dict[str, Label]()
        for name, spot in drawn.items():
            fixed = [*standing, *(label.box for label in names.values())]
            position = str(order.index(name) + 1)
            for text in (position,) if numbers_only else (touched[name], position):
                moved, label = _named(text, spot, plan, scene, fixed, moved, far=len(touched) == 1)
                if label is not None:
                    names[name] = label
                    break
        if found is None or len(names) > len(found[1]):
            found = moved, names
        if len(names) == len(drawn):
            break
    moved, names = found if found is not None else (units, {})
    left_over = []
    for name, title in touched.items():
        position = str(order.index(name) + 1)
        if name not in names:
            left_over.append(title)
        elif names[name].lines == (position,):
            left_over.append(f"{position} {title}")
    return moved, tuple(names.items()), left_over


def _named(
    text: str,
    spot: Box,
    plan: Layout,
    scene: Scene,
    fixed: list[Box],
    units: tuple[UnitBox, ...],
    *,
    far: bool,
) -> tuple[tuple[UnitBox, ...], Label | None]:
    """A text beside a symbol, with the units, whose names have moved within them if that made room for it."""
    sides = [side for unit in units for side in outline(unit.box, 1.3)]
    fixed = [*fixed, *(side for side in sides if side.width > side.height)]  # no line through a whole text
    walls = [*outline(plan.floor, 2.0), *(side for side in sides if side.width <= side.height)]
    taken = [*fixed, *(unit.label.box for unit in units if unit.label is not None)]
    label = name_beside(text, spot, plan.sheet, taken, walls)
    if label is not None:
        return units, label
    label = name_beside(text, spot, plan.sheet, fixed, walls)
    moved = _moved(units, scene, fixed, label.box) if label is not None else None
    if moved is not None:
        return moved, label
    return units, name_beside(text, spot, plan.sheet, taken, walls, far=True) if far else None


def _moved(
    units: tuple[UnitBox, ...], scene: Scene, fixed: list[Box], wanted: Box
) -> tuple[UnitBox, ...] | None:
    """The units with their names off `wanted` and everything else, or None where one finds no room."""
    stay = [u.label.box for u in units if u.label is not None and not u.label.box.overlaps(wanted)]
    taken, found = [*fixed, *stay, wanted], []
    for unit in units:
        if unit.label is not None and unit.label.box.overlaps(wanted):
            label = name_in_unit(unit.box, unit.name, _type_of(scene, unit.name), taken)
            if label is None:
                return None
            taken.append(label.box)
            found.append(replace(unit, label=label))
        else:
            found.append(unit)
    return tuple(found)


def _type_of(scene: Scene, unit: str) -> str:
    planned = scene.units.get(unit)
    return planned.unit_type if planned else ""


def _units(hold: Hold, unit_types: Mapping[str, UnitType], plan: Layout, scene: Scene) -> Iterator[UnitBox]:
    """Every unit to be seen, without its name; of the one that moves also where it came from, first."""
    moving, way = scene.moving, scene.way
    if moving is not None:
        came_from = _place_box(plan, hold, way[0], way)
        if came_from is not None:
            yield UnitBox(moving, _footprint(plan, unit_types, scene, moving, came_from), None, True, True)
    for name, bay in scene.state.units.items():
        if bay == OUTSIDE and name not in scene.at_sill:
            continue
        place = _place_box(plan, hold, bay, way if name == moving else ())
        if place is not None:
            box = _footprint(plan, unit_types, scene, name, place)
            yield UnitBox(name, box, None, name == moving)


def _with_names(units: tuple[UnitBox, ...], scene: Scene, standing: list[Box]) -> tuple[UnitBox, ...]:
    taken, found = list(standing), []
    for unit in units:
        if unit.ghost:
            found.append(unit)
            continue
        label = name_in_unit(unit.box, unit.name, _type_of(scene, unit.name), taken)
        label = label or name_off_unit(unit.box, unit.name, taken)
        taken.append(label.box)
        found.append(replace(unit, label=label))
    return tuple(found)


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


def _way(plan: Layout, scene: Scene, units: tuple[UnitBox, ...]) -> tuple[tuple[float, float], ...]:
    """A line through the middles of the places passed, ending just inside the unit that moved."""
    if scene.moving is None:
        return ()
    ghost = next((u.box for u in units if u.ghost), None)
    goal = next((u.box for u in units if u.name == scene.moving and not u.ghost), None)
    middles = [plan.bays[name].middle for name in scene.way[1:-1] if name in plan.bays]
    if ghost is None or goal is None:
        return ()
    bays = [plan.bays[name] for name in scene.way if name in plan.bays]
    return way_of([ghost.middle, *middles], goal, bays or [goal], list(plan.bay_names.values()))


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
