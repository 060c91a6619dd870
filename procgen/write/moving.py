"""Moves in words: what to hold, until when, when to let go of what, and what the unit does on its way."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from procgen.model.hold import Hold, Restraint
from procgen.model.step import Drive, Push
from procgen.model.words import OUTSIDE, Travel
from procgen.write import phrases, words
from procgen.write.room import has_room_behind
from procgen.write.standing import Hop, Standing, beyond, held_down, hops, overridden


@dataclass(frozen=True, slots=True)
class Said:
    """What a step says: see `PageStep`."""

    text: str
    why: str = ""
    done_when: str = ""
    if_not: str = ""
    who: str = ""


@dataclass(frozen=True, slots=True)
class _End:
    """Where a move ends, in words; `care` says what to mind where nothing firm stops the unit."""

    words: str
    care: str = ""


def drive(step: Drive, standing: Standing, hold: Hold) -> Said:
    """A powered move: the controls to hold, and when to let go of each."""
    way = hops(step.through, hold)
    end = _end(step, way, standing, hold, phrases.NO_STOP, phrases.GIVES_WAY)
    early = _early(step, standing, hold, way)
    held = _drive_control_last(step.hold, hold)
    if early:
        staying = [control for control in held if control not in early]
        text = words.sentences(
            _hold_on(held, hold),
            *(
                phrases.LET_GO_PAST.format(items=words.items(hold, passed), control=words.item(hold, control))
                for control, passed in early.items()
            ),
            phrases.LET_GO_AT_END.format(end=end.words, control=words.items(hold, staying)),
        )
    else:
        text = _hold_until(held, end.words, hold)
    why = words.sentences(_on_the_way(step, standing, hold), end.care)
    return Said(text, why, who=phrases.OPERATOR)


def push(step: Push, standing: Standing, hold: Hold) -> Said:
    """A move by hand: how many people, which way, until when; with gear, how it is pulled."""
    if step.gear is not None:
        return _pull(step, step.gear, standing, hold)
    way = hops(step.through, hold)
    end = _end(step, way, standing, hold, phrases.NO_STOP_PUSH, phrases.GIVES_WAY_PUSH)
    template, direction = _directed(way, phrases.PUSH, phrases.PUSH_NOWHERE)
    text = words.sentences(
        template.format(direction=direction, crew=step.crew, end=end.words),
        _meanwhile(step, hold),
        "" if has_room_behind(step, standing, hold) else phrases.NO_ROOM,
    )
    why = words.sentences(_on_the_way(step, standing, hold), end.care)
    return Said(text, why, if_not=phrases.PUSH_IF_NOT, who=phrases.LOADER)


def _pull(step: Push, gear: str, standing: Standing, hold: Hold) -> Said:
    """A pull from the platform: with what, where to stand, when to let go."""
    way = hops(step.through, hold)
    end = _end(step, way, standing, hold, phrases.NO_STOP_PULL, phrases.GIVES_WAY_PULL)
    template, direction = _directed(way, phrases.PULL, phrases.PULL_NOWHERE)
    named = words.pulling_gear(hold, gear)
    text = words.sentences(
        template.format(direction=direction, crew=step.crew, gear=named, end=end.words),
        _meanwhile(step, hold),
        phrases.PULL_STAND,
        phrases.PULL_LET_GO.format(gear=named),
    )
    why = words.sentences(_on_the_way(step, standing, hold), end.care)
    return Said(text, why, if_not=phrases.PULL_IF_NOT.format(gear=named), who=phrases.LOADER)


def _directed(way: Sequence[Hop], template: str, nowhere: str) -> tuple[str, str]:
    """The template for a move that has a direction or has none, and the direction in words."""
    go = way[-1].go if way else None
    return (nowhere, "") if go is None else (template, phrases.DIRECTIONS[go].upper())


def _meanwhile(step: Push, hold: Hold) -> str:
    """What somebody holds while the unit is moved by hand."""
    held = [
        phrases.PUSH_CONTROL.format(control=words.item(hold, control), position=position.upper())
        for control, position in step.hold.items()
    ]
    return phrases.PUSH_HOLDING.format(controls=words.listing(held)) if held else ""


def _drive_control_last(held: Mapping[str, str], hold: Hold) -> Mapping[str, str]:
    """The controls in the order in which hands go to them: what runs the rollers comes last."""
    running = {drive.run_by for drive in hold.drives.values()}
    return dict(sorted(held.items(), key=lambda control: control[0] in running))


def _hold_until(held: Mapping[str, str], end: str, hold: Hold) -> str:
    return _holding(
        held, hold, phrases.HOLD_NOTHING, phrases.HOLD_ONE, phrases.HOLD_TWO_ALIKE, phrases.HOLD_TWO
    ).format(end=end, **_controls(held, hold))


def _hold_on(held: Mapping[str, str], hold: Hold) -> str:
    return _holding(
        held, hold, "", phrases.HOLD_ONE_ON, phrases.HOLD_TWO_ALIKE_ON, phrases.HOLD_TWO_ON
    ).format(**_controls(held, hold))


def _holding(held: Mapping[str, str], hold: Hold, none: str, one: str, alike: str, two: str) -> str:
    """The template for so many controls. Nobody holds three; a writer who asks for it reads the first two."""
    if len(held) < 2:
        return one if held else none
    first, second, *_ = held.values()
    return alike if first == second else two


def _controls(held: Mapping[str, str], hold: Hold) -> dict[str, str]:
    names = list(held)
    fields: dict[str, str] = {}
    for keys, name in zip((("first", "control"), ("second",)), names, strict=False):
        fields |= {key: words.item(hold, name) for key in keys}
    positions = [position.upper() for position in held.values()]
    for keys, position in zip(
        (("first_position", "position"), ("second_position",)), positions, strict=False
    ):
        fields |= dict.fromkeys(keys, position)
    return fields


def _early(step: Drive, standing: Standing, hold: Hold, way: Sequence[Hop]) -> dict[str, list[str]]:
    """The held controls to let go of before the unit has arrived, and the items it must be past by then."""
    passed: dict[str, list[str]] = {}
    last: dict[str, int] = {}
    for hop, item, control in held_down(standing, step.hold, step.through, hold):
        passed.setdefault(control, []).append(item.name)
        last[control] = list(way).index(hop)
    running = {drive.run_by for drive in hold.drives.values()}
    return {
        control: names
        for control, names in passed.items()
        if last[control] < len(way) - 1
        and control not in running
        and not hold.controls[control].returns_when_clear
    }


def _on_the_way(step: Drive | Push, standing: Standing, hold: Hold) -> str:
    """What goes down and comes up by itself while the unit passes."""
    pushed = overridden(standing, step.hold, step.through, hold)
    held = held_down(standing, step.hold, step.through, hold)
    returning = [
        control
        for control in step.hold
        if control in hold.controls and hold.controls[control].returns_when_clear
    ]
    let_up = [item.name for _, item, control in held if control not in returning]
    return words.sentences(
        _pushed([i for i in pushed if i.returns_by_spring], hold, phrases.PUSHED_ONE, phrases.PUSHED_MANY),
        _pushed(
            [i for i in pushed if not i.returns_by_spring],
            hold,
            phrases.PUSHED_ONE_STAYS,
            phrases.PUSHED_MANY_STAY,
        ),
        _many(let_up, hold, phrases.COMES_UP_ONE, phrases.COME_UP_MANY),
        *(
            words.sentence(phrases.HANDLE_RETURNS.format(control=words.item(hold, control)))
            for control in returning
        ),
    )


def _pushed(items: Sequence[Restraint], hold: Hold, one: str, many: str) -> str:
    return _many([item.name for item in items], hold, one, many)


def _many(names: Sequence[str], hold: Hold, one: str, many: str) -> str:
    if not names:
        return ""
    return words.sentence((one if len(names) == 1 else many).format(items=words.items(hold, names)))


def _end(
    step: Drive | Push, way: Sequence[Hop], standing: Standing, hold: Hold, no_stop: str, gives_way: str
) -> _End:
    """What the unit meets where the move ends: an item, a unit, or nothing that the data name.

    An item that a unit pushes down in this direction shows where to stop, but does not stop the unit.
    """
    place = step.through[-1] if step.through else ""
    if place == OUTSIDE:
        return _End(phrases.END_OUTSIDE)
    go = way[-1].go if way else None
    if go is not None:
        met = _met(place, go, standing, hold, step.hold)
        firm = [item for item in met if go not in item.override]
        for item in firm or met:
            touched = phrases.END_ITEM.format(item=words.item(hold, item.name))
            care = "" if firm else words.sentence(gives_way.format(item=words.item(hold, item.name)))
            return _End(touched, care)
        ahead = _loaded_ahead(place, go, standing, hold)
        if ahead:
            return _End(phrases.END_UNIT.format(bay=words.bay(ahead)))
    return _End(phrases.END_BAY.format(bay=words.bay(place)), no_stop)


def _met(place: str, go: Travel, standing: Standing, hold: Hold, held: Mapping[str, str]) -> list[Restraint]:
    """The raised restraints that a unit in this place meets: beside it, or before the next place."""
    following = beyond(place, go, hold)
    return [
        item
        for item in hold.restraints.values()
        if item.name in standing.raised
        and go in item.stops
        and (place in item.beside or (item.between is not None and set(item.between) == {place, following}))
        and not any(item.lowered_by.get(control) == position for control, position in held.items())
    ]


def _loaded_ahead(place: str, go: Travel, standing: Standing, hold: Hold) -> str:
    """The loaded bay that the unit comes up against."""
    following = beyond(place, go, hold)
    if following not in hold.bays:
        return ""
    blocking = (following, *sorted(hold.overlapping(following) - {place}))
    return next((bay for bay in blocking if standing.unit_in(bay)), "")
