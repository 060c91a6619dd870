"""Moves of a unit, hop by hop: under power (`drive`) and by hand (`push`)."""

from __future__ import annotations

from procgen.model.hold import Restraint
from procgen.model.step import Drive, Push
from procgen.model.words import OUTSIDE, RestraintState
from procgen.simulate.fit import check_fit
from procgen.simulate.held import Held, controls_for, read_held
from procgen.simulate.ledger import Sort
from procgen.simulate.names import called, either, stands, verb_for
from procgen.simulate.people import check_bay_free, check_path, check_released
from procgen.simulate.power import power_gaps
from procgen.simulate.pushing import check_push
from procgen.simulate.reach import need_door
from procgen.simulate.route import Route, read_route, read_unit
from procgen.simulate.scene import Hop
from procgen.simulate.work import Work


def move(work: Work, step: Drive | Push) -> None:
    """Move a unit along the places that the step names."""
    doing = f"{'drives' if isinstance(step, Drive) else 'pushes'} {step.unit}"
    route = read_route(work, step, doing)
    named = read_unit(work, step.unit, route.start, doing)
    found = len(work.findings)
    unit = _at_start(work, named, route, doing)
    misplaced = len(work.findings) > found
    held = read_held(work, step, route.hops, route.sound)
    powered = _powered(work, step, route, unit, held, doing)
    check_path(work, unit, doing)
    if unit is not None:
        check_fit(work, unit, route.hops, doing)
    for hop in route.hops:
        if hop.through_door:
            need_door(work, work.scene.doors_at(hop.at_door), f"{doing} {hop.go}")
        said = check_bay_free(work, unit, hop, doing)
        _guides(work, hop, held, powered, doing)
        _passes(work, hop, held, powered, said, doing)
    if route.sound:
        check_released(work, unit, route.hops, held, doing)
    _arrive(work, unit, route, certain=route.sound and not misplaced)


def _powered(work: Work, step: Drive | Push, route: Route, unit: str | None, held: Held, doing: str) -> bool:
    """What moves the unit; whether items that need power to be lowered have it."""
    if isinstance(step, Push):
        check_push(work, step, unit, doing)
        return not any(work.scene.hold.restraints[name].powered for name in _lowered(work, held)) or not (
            power_gaps(work)
        )
    way = f"{doing} {route.hops[0].go}" if route.hops else doing
    gaps = power_gaps(work) if work.scene.hold.drives else []
    if gaps:
        work.find(
            "move-without-power",
            f"{way} while power is off: {'; '.join(gap.words for gap in gaps)}",
            suggestion=gaps[0].mend,
            against=gaps[0].place,
            because="what power needs",
            unit=step.unit,
            item=gaps[0].name,
        )
        for gap in gaps:
            work.doubt(gap.sort, gap.name)
    if route.sound and not held.suspects and not held.unclear:
        _live_drives(work, step, route.hops, held)
    return True


def _lowered(work: Work, held: Held) -> list[str]:
    return [name for name, item in work.scene.hold.restraints.items() if held.lowers(item)]


def _live_drives(work: Work, step: Drive, hops: tuple[Hop, ...], held: Held) -> None:
    """Each hop needs a live drive under one of its two places, run in its direction by a held control."""
    for hop in hops:
        running = [
            drive
            for drive in work.scene.hold.drives.values()
            if hop.go in drive.go
            and not hop.pair.isdisjoint(drive.under)
            and held.positions.get(drive.run_by) == drive.go[hop.go]
        ]
        dead = [drive for drive in running if drive.name in work.state.dead]
        if len(running) > len(dead) or any(work.excused(Sort.SERVICE, drive.name, "") for drive in dead):
            continue
        ways = controls_for(work, hop)
        why = f"{called(dead[0])} is out of service" if dead else "no control that is held runs a drive there"
        work.find(
            "no-live-drive",
            f"drives {step.unit} {hop}, but {why}",
            suggestion=f"hold {either(ways)}"
            if ways and not dead
            else "push the unit, if the hold allows it",
            against=dead[0].place if dead else work.scene.hold.bays[hop.at_door].place,
            because=called(dead[0]) if dead else f"bay {hop.at_door}",
            unit=step.unit,
            bay=hop.end,
        )
        for drive in dead:
            work.doubt(Sort.SERVICE, drive.name)
        return


def _at_start(work: Work, unit: str | None, route: Route, doing: str) -> str | None:
    """The unit that moves: the named one, or where it is elsewhere the only one that stands at the start."""
    if route.start is None or unit is None:
        return unit
    place = work.state.units.get(unit)
    if place == route.start or work.excused(Sort.UNIT, unit, route.start):
        return unit
    there = [other for other, bay in work.state.units.items() if bay == route.start and other != unit]
    if place is None and route.start == OUTSIDE:
        work.find(
            "unit-not-presented",
            f"{doing} in from outside, but it has not been presented",
            suggestion=f"present {unit} before this step"
            + (f", or name {there[0]}, which is there" if len(there) == 1 else ""),
            unit=unit,
        )
    else:
        where = "not in the hold" if place is None else "outside" if place == OUTSIDE else f"in {place}"
        work.find(
            "unit-not-where-move-starts",
            f"{doing} from {route.start}, but it is {where}",
            suggestion=f"name {there[0]}, which is there, or start the move where {unit} stands"
            if len(there) == 1
            else f"start the move where {unit} stands",
            unit=unit,
            bay=route.start,
        )
    work.doubt(Sort.UNIT, unit)
    if len(there) != 1:
        return unit
    work.doubt(Sort.UNIT, there[0])
    return there[0]


def _guides(work: Work, hop: Hop, held: Held, powered: bool, doing: str) -> None:
    """Everything that guides this hop must be up during it."""
    for name in work.scene.guiding.get((hop.start, hop.end), ()):
        item = work.scene.hold.restraints[name]
        held_down = held.lowers(item) and (powered or not item.powered)
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


def _passes(work: Work, hop: Hop, held: Held, powered: bool, said: frozenset[str], doing: str) -> None:
    """Every restraint in the way must be down, be held down, or be pushed down by the unit.

    `said` names restraints that a finding of this hop has spoken of already.
    """
    for name in work.scene.standing.get(hop.pair, ()):
        item = work.scene.hold.restraints[name]
        if hop.go not in item.stops or work.restraint(name) is RestraintState.LOWERED or name in said:
            continue
        stuck = name in work.state.stuck
        if not stuck and held.lowers(item) and (powered or not item.powered):
            work.passed.append(name)  # it is up again once the control is let go
        elif not stuck and hop.go in item.override:
            work.passed.append(name)
            if not item.returns_by_spring:
                work.put_restraint(name, RestraintState.LOWERED)
                work.settle(Sort.RESTRAINT, name)
        elif not held.suspected(item) and not work.excused(
            Sort.RESTRAINT, name, RestraintState.LOWERED.value
        ):
            _blocked(work, hop, item, stuck, doing)


def _blocked(work: Work, hop: Hop, item: Restraint, stuck: bool, doing: str) -> None:
    up = stands(item, RestraintState.RAISED)
    ways = [f"hold {control} to {at}" for control, at in item.lowered_by.items()]
    if item.by_hand:
        ways.append(f"{verb_for(item, RestraintState.LOWERED)} {called(item)}")
    mend = f"{either(ways)} {'in' if item.lowered_by else 'before'} this step" if ways else "go another way"
    stops = either(sorted(item.stops))
    work.find(
        "move-through-raised-restraint",
        f"{doing} {hop} while {called(item)} is {'stuck ' if stuck else ''}{up}",
        suggestion="go another way" if stuck else mend,
        against=item.place,
        because=f"{called(item)} stops travel {stops} between {hop.start} and {hop.end}",
        item=item.name,
        bay=hop.end,
    )
    if item.by_hand or stuck:
        work.doubt(Sort.RESTRAINT, item.name)


def _arrive(work: Work, unit: str | None, route: Route, *, certain: bool) -> None:
    """Put the unit where the step leads it. `certain` says that the step itself leaves no doubt of that.

    A unit in doubt is known again when it moves from where it was taken to be, or to where it belongs.
    """
    if unit is None:
        if route.end is not None:
            work.owe(Sort.UNIT, route.end)
        return
    if route.end is None:
        work.doubt(Sort.UNIT, unit)
        return
    known = not work.ledger.in_doubt(Sort.UNIT, unit) or work.state.units.get(unit) == route.start
    work.put_unit(unit, route.end)
    work.settle(Sort.UNIT, unit)
    if not (certain and (known or work.at_goal(unit))):
        work.doubt(Sort.UNIT, unit)
