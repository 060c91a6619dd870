"""The way of a unit, hop by hop: the door, the next bay, what guides the unit and what stands before it."""

from __future__ import annotations

from dataclasses import replace

from procgen.model.hold import Restraint
from procgen.model.words import OUTSIDE, RestraintState
from procgen.simulate.held import Held
from procgen.simulate.ledger import Sort
from procgen.simulate.names import called, either, listed, stands, verb_for
from procgen.simulate.people import check_bay_free
from procgen.simulate.reach import need_door
from procgen.simulate.scene import Hop
from procgen.simulate.work import Work


def pass_hops(
    work: Work, unit: str | None, hops: tuple[Hop, ...], held: Held, *, powered: bool, doing: str
) -> bool:
    """Take a unit along its way; whether every bay of it was free.

    `powered`: items that need power to be lowered have it.
    """
    free = True
    for hop in hops:
        if hop.through_door and not _through_door(work, unit, hop, doing):
            return False
        said = check_bay_free(work, unit, hop, doing)
        _guides(work, hop, held, powered, doing)
        missing = _passes(work, hop, held, powered, said or frozenset(), doing)
        _stands_over(work, unit, hop, held, powered, doing)
        held = replace(held, suspects=held.suspects | missing)
        free = free and said is None
    return free


def carry(work: Work, unit: str | None, hops: tuple[Hop, ...], doing: str) -> None:
    """Carry loose pieces along their way.

    Nobody pushes a restraint down with pieces in the arms, and nobody holds a control meanwhile: whatever
    stands in the way must be down.
    """
    for hop in hops:
        if hop.through_door and not _through_door(work, unit, hop, doing):
            return
        said = check_bay_free(work, unit, hop, doing)
        for item in _standing(work, hop, said or frozenset()):
            if not _excused_down(work, item):
                _blocked(work, hop, [item], doing, carried=True)


def _through_door(work: Work, unit: str | None, hop: Hop, doing: str) -> bool:
    """The door of a hop must be open, and a unit that comes in must stand at it.

    Where it stands at another, the way or the door may be what is wrong, and nothing more is concluded.
    """
    doors = work.scene.doors_at(hop.at_door)
    stands_at = work.state.at_door.get(unit) if unit is not None and hop.start == OUTSIDE else None
    if stands_at is None or stands_at in doors:
        need_door(work, doors, f"{doing} {hop.go}")
        return True
    if work.ledger.in_doubt(Sort.UNIT, unit or ""):
        return False
    here, there = (work.scene.hold.doors[name] for name in (doors[0], stands_at))
    work.find(
        "unit-at-other-door",
        f"{doing} in to {hop.end}, but {hop.end} lies at {called(here)} and it stands at {called(there)}",
        suggestion=f"present it at {here.name}: present: {{unit: {unit}, door: {here.name}}}",
        against=work.scene.hold.bays[hop.end].place,
        because=f"bay {hop.end} lies at {called(here)}",
        unit=unit,
        bay=hop.end,
        item=here.name,
    )
    return False


def _guides(work: Work, hop: Hop, held: Held, powered: bool, doing: str) -> None:
    """Everything that guides this hop must be up during it."""
    for name in work.scene.guiding.get((hop.start, hop.end), ()):
        item = work.scene.hold.restraints[name]
        held_down = held.keeps_down(item, powered, work.state.stuck)
        if work.restraint(name) is RestraintState.RAISED and not held_down:
            continue
        if held.suspected(item) or work.excused(Sort.RESTRAINT, name, RestraintState.RAISED.value):
            continue
        how = "is held down" if held_down else f"is {stands(item, RestraintState.LOWERED)}"
        remedy = f"{verb_for(item, RestraintState.RAISED)} {called(item)} before this step"
        work.find(
            "move-with-guide-down",
            f"{doing} {hop} while {called(item)}, which must guide it, {how}",
            suggestion="let go of its control in this step" if held_down else remedy,
            against=item.place,
            because=f"{called(item)} must be up from {hop.start} to {hop.end}",
            item=name,
            bay=hop.end,
        )
        if not held_down:
            work.doubt(Sort.RESTRAINT, name)


def _passes(
    work: Work, hop: Hop, held: Held, powered: bool, said: frozenset[str], doing: str
) -> frozenset[str]:
    """Every restraint in the way must be down, be held down, or be pushed down by the unit.

    `said` names restraints that a finding of this hop has spoken of already. Returns the controls that
    would have lowered what is found up: one control forgotten is one finding, whatever it lowers.
    """
    blocked: dict[tuple[str, ...], list[Restraint]] = {}
    for item in _standing(work, hop, said):
        name = item.name
        stuck = name in work.state.stuck
        if held.keeps_down(item, powered, work.state.stuck):
            work.passed.append(name)  # it is up again once the control is let go
        elif not stuck and hop.go in item.override:
            work.passed.append(name)
            if not item.returns_by_spring:
                work.put_restraint(name, RestraintState.LOWERED)
                work.settle(Sort.RESTRAINT, name)
        elif not held.suspected(item) and not _excused_down(work, item):
            controls = () if stuck or item.by_hand else tuple(item.lowered_by)
            blocked.setdefault(controls or (name,), []).append(item)
    for items in blocked.values():
        _blocked(work, hop, items, doing)
    found = [item for items in blocked.values() for item in items]
    return frozenset(control for item in found if not item.by_hand for control in item.lowered_by)


def _standing(work: Work, hop: Hop, said: frozenset[str]) -> list[Restraint]:
    """The restraints that are up, that this hop meets and that stop its direction.

    What lies under the unit already, and does not hold it there, is not ahead of it.
    """
    beneath = work.scene.beneath.get(hop.start, ())
    items = [work.scene.hold.restraints[name] for name in work.scene.in_way(hop) if name not in said]
    return [
        item
        for item in items
        if hop.go in item.stops
        and item.name not in beneath
        and work.restraint(item.name) is RestraintState.RAISED
    ]


def _excused_down(work: Work, item: Restraint) -> bool:
    return work.excused(Sort.RESTRAINT, item.name, RestraintState.LOWERED.value)


def _stands_over(work: Work, unit: str | None, hop: Hop, held: Held, powered: bool, doing: str) -> None:
    """Nothing may be up under the unit in the next bay, save what holds it there.

    What stops this direction has been met on the way.
    """
    before = work.scene.beneath.get(hop.start, ())
    for name in work.scene.beneath.get(hop.end, ()):
        item = work.scene.hold.restraints[name]
        held_down = held.keeps_down(item, powered, work.state.stuck)
        down = held_down or work.restraint(name) is RestraintState.LOWERED
        if down or name in before or hop.go in item.stops or held.suspected(item):
            continue
        if _excused_down(work, item):
            continue
        work.find(
            "unit-over-raised-restraint",
            f"{doing} {hop}, where it comes to stand over {called(item)}, which is"
            f" {stands(item, RestraintState.RAISED)}",
            suggestion="use another bay" if name in work.state.stuck else _way_past(work, item),
            against=item.place,
            because=f"{called(item)} stands between {listed(item.between or item.beside)},"
            f" which {hop.end} covers",
            item=name,
            bay=hop.end,
            unit=unit,
        )
        work.doubt(Sort.RESTRAINT, name)


def _blocked(work: Work, hop: Hop, items: list[Restraint], doing: str, *, carried: bool = False) -> None:
    """The finding for restraints that are up and that one forgotten action would have lowered."""
    item = items[0]
    stuck = item.name in work.state.stuck
    titles, verb = listed([called(one) for one in items]), "is" if len(items) == 1 else "are"
    up = f"{verb} {'stuck ' if stuck else ''}{stands(item, RestraintState.RAISED)}"
    stops, ends = either(sorted(item.stops)), item.between or ()
    if hop.pair == frozenset(ends):
        ends = (hop.start, hop.end)
    work.find(
        "move-through-raised-restraint",
        f"{doing} {hop} while {titles} {up}",
        suggestion="go another way" if stuck else _way_past(work, item, by_control=not carried),
        against=item.place,
        because=f"{called(item)} stops travel {stops} between {listed(ends)}",
        item=item.name,
        bay=hop.end,
    )
    for one in items:
        if one.by_hand or stuck or carried:
            work.doubt(Sort.RESTRAINT, one.name)


def _way_past(work: Work, item: Restraint, *, by_control: bool = True) -> str:
    """What lowers a restraint."""
    controls = work.scene.hold.controls
    hold = [
        f"hold {called(controls[name])} to {at} in this step"
        for name, at in item.lowered_by.items()
        if name in controls and by_control
    ]
    hand = f"{verb_for(item, RestraintState.LOWERED)} {called(item)} before this step"
    return either([*hold, *([hand] if item.by_hand else [])]) or "go another way"
