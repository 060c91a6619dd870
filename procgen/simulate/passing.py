"""The way of a unit, hop by hop: the door, the next bay, what guides the unit and what stands before it."""

from __future__ import annotations

from dataclasses import replace

from procgen.model.hold import Restraint
from procgen.model.words import RestraintState
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
        if hop.through_door:
            need_door(work, work.scene.doors_at(hop.at_door), f"{doing} {hop.go}")
        said = check_bay_free(work, unit, hop, doing)
        _guides(work, hop, held, powered, doing)
        missing = _passes(work, hop, held, powered, said or frozenset(), doing)
        held = replace(held, suspects=held.suspects | missing)
        free = free and said is None
    return free


def _held_down(item: Restraint, held: Held, powered: bool) -> bool:
    return held.lowers(item) and (powered or not item.powered)


def _guides(work: Work, hop: Hop, held: Held, powered: bool, doing: str) -> None:
    """Everything that guides this hop must be up during it."""
    for name in work.scene.guiding.get((hop.start, hop.end), ()):
        item = work.scene.hold.restraints[name]
        held_down = _held_down(item, held, powered)
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
    for name in work.scene.standing.get(hop.pair, ()):
        item = work.scene.hold.restraints[name]
        if hop.go not in item.stops or work.restraint(name) is RestraintState.LOWERED or name in said:
            continue
        stuck = name in work.state.stuck
        if not stuck and _held_down(item, held, powered):
            work.passed.append(name)  # it is up again once the control is let go
        elif not stuck and hop.go in item.override:
            work.passed.append(name)
            if not item.returns_by_spring:
                work.put_restraint(name, RestraintState.LOWERED)
                work.settle(Sort.RESTRAINT, name)
        elif not held.suspected(item) and not work.excused(
            Sort.RESTRAINT, name, RestraintState.LOWERED.value
        ):
            controls = () if stuck or item.by_hand else tuple(item.lowered_by)
            blocked.setdefault(controls or (name,), []).append(item)
    for items in blocked.values():
        _blocked(work, hop, items, doing)
    found = [item for items in blocked.values() for item in items]
    return frozenset(control for item in found if not item.by_hand for control in item.lowered_by)


def _blocked(work: Work, hop: Hop, items: list[Restraint], doing: str) -> None:
    """The finding for restraints that are up and that one forgotten action would have lowered."""
    item = items[0]
    stuck = item.name in work.state.stuck
    titles, verb = listed([called(one) for one in items]), "is" if len(items) == 1 else "are"
    up = f"{verb} {'stuck ' if stuck else ''}{stands(item, RestraintState.RAISED)}"
    stops = either(sorted(item.stops))
    work.find(
        "move-through-raised-restraint",
        f"{doing} {hop} while {titles} {up}",
        suggestion="go another way" if stuck else _way_past(work, item),
        against=item.place,
        because=f"{called(item)} stops travel {stops} between {hop.start} and {hop.end}",
        item=item.name,
        bay=hop.end,
    )
    for one in items:
        if one.by_hand or stuck:
            work.doubt(Sort.RESTRAINT, one.name)


def _way_past(work: Work, item: Restraint) -> str:
    """What lowers a restraint."""
    controls = work.scene.hold.controls
    hold = [
        f"hold {called(controls[name])} to {at} in this step"
        for name, at in item.lowered_by.items()
        if name in controls
    ]
    hand = f"{verb_for(item, RestraintState.LOWERED)} {called(item)} before this step"
    return either([*hold, *([hand] if item.by_hand else [])]) or "go another way"
