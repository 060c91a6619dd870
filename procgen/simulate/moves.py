"""Moves of a unit under power (`drive`) and by hand (`push`, `pull`): which unit, what moves it, where to."""

from __future__ import annotations

from procgen.model.step import Drive, Push
from procgen.model.words import OUTSIDE
from procgen.simulate.fit import check_fit
from procgen.simulate.held import Held, controls_for, read_held
from procgen.simulate.jammed import check_jammed
from procgen.simulate.ledger import Sort
from procgen.simulate.names import called, either
from procgen.simulate.passing import pass_hops
from procgen.simulate.people import check_path, check_released
from procgen.simulate.power import power_gaps
from procgen.simulate.pulling import check_gear, check_stand
from procgen.simulate.pushing import check_push
from procgen.simulate.route import Route, read_route, read_unit, wrong_verb_for_load
from procgen.simulate.scene import Hop
from procgen.simulate.work import Work


def move(work: Work, step: Drive | Push) -> None:
    """Move a unit along the places that the step names.

    Where those are in question, because of a fault in them, because the unit is somewhere else or because
    the controls held ask for another move, nothing more is concluded from them.
    """
    is_pulled = isinstance(step, Push) and step.gear is not None
    doing = f"{'drives' if isinstance(step, Drive) else 'pulls' if is_pulled else 'pushes'} {step.unit}"
    if wrong_verb_for_load(work, step, doing):
        work.go_inside()  # as those who stow it
        return
    route = read_route(work, step, doing)
    named = read_unit(work, step.unit, route.start, doing)
    unit, certain = at_start(work, named, route, doing)
    check_jammed(work, unit, doing)
    held = read_held(work, step, route.hops, sound=certain)
    way = f"{doing} {route.hops[0].go}" if route.hops else doing
    powered = _powered(work, step, unit, way, held, doing)
    free, before = True, len(work.findings)
    if certain and not held.astray:
        if isinstance(step, Drive):
            _live_drives(work, step, route.hops, held)
        if unit is not None:
            check_fit(work, unit, route.hops, doing)
        free = pass_hops(work, unit, route.hops, held, powered=powered, doing=doing)
        check_released(work, unit, route.hops, held, powered=powered, doing=doing)
        if isinstance(step, Push) and len(work.findings) == before:
            check_stand(work, step, route.hops, doing)
    met = len(work.findings) > before
    check_path(work, unit, pushed=isinstance(step, Push) and not is_pulled, doing=doing)
    arrive(work, unit, route, open_end=held.unclear or not free or (met and route.end == OUTSIDE))
    if met and unit is not None:
        work.doubt(Sort.START, unit)  # another way may have been meant


def _powered(work: Work, step: Drive | Push, unit: str | None, way: str, held: Held, doing: str) -> bool:
    """What moves the unit; whether items that need power to be lowered have it."""
    if isinstance(step, Push):
        check_push(work, step, unit, doing)
        check_gear(work, step, unit, doing)
        need = any(work.scene.hold.restraints[name].powered for name in _lowered(work, held))
        return not (need and power_gaps(work))
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
    return True


def _lowered(work: Work, held: Held) -> list[str]:
    return [name for name, item in work.scene.hold.restraints.items() if held.lowers(item)]


def _live_drives(work: Work, step: Drive, hops: tuple[Hop, ...], held: Held) -> None:
    """Each hop needs a live drive under one of its two places, run in its direction by a held control.

    Where something is wrong with what is held, that has been said.
    """
    for hop in () if held.suspects or held.unclear else hops:
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


def at_start(work: Work, unit: str | None, route: Route, doing: str) -> tuple[str | None, bool]:
    """The unit that moves, and whether it is certain that it makes this move.

    It is the named one, or where that is elsewhere the only one that stands at the start.
    """
    if not route.sound or route.start is None or unit is None:
        return unit, route.sound
    place = work.state.units.get(unit)
    if place == route.start:
        work.ledger = work.ledger.settled(Sort.START, unit).settled(Sort.UNIT, unit)
        return unit, True
    missing = place is None and route.start == OUTSIDE
    if work.ledger.in_doubt(Sort.START, unit) or work.excused(Sort.UNIT, unit, route.start):
        work.doubt(Sort.UNIT, unit)
        return unit, missing
    there = [other for other, bay in work.state.units.items() if bay == route.start and other != unit]
    _elsewhere(work, unit, place, route.start, there, doing)
    _doubt_way(work, unit)
    if len(there) != 1:
        work.doubt(Sort.START, unit)
        return unit, missing
    work.doubt(Sort.UNIT, unit)
    work.doubt(Sort.UNIT, there[0])
    return there[0], False


def _doubt_way(work: Work, unit: str) -> None:
    """The last move of a unit may have been meant to go another way: then it pushed nothing down."""
    moved = work.ledger.touched.get((Sort.UNIT, unit))
    for (sort, name), step in work.ledger.touched.items():
        if sort is Sort.RESTRAINT and step == moved:
            work.doubt(Sort.RESTRAINT, name)


def _elsewhere(work: Work, unit: str, place: str | None, start: str, there: list[str], doing: str) -> None:
    """The finding for a unit that is not where its move starts."""
    other = f", or name {there[0]}, which is there" if len(there) == 1 else ""
    if place is None and start == OUTSIDE:
        work.find(
            "unit-not-presented",
            f"{doing} in from outside, but it has not been presented",
            suggestion=f"present {unit} before this step{other}",
            unit=unit,
        )
        return
    where = "not in the hold" if place is None else "outside" if place == OUTSIDE else f"in {place}"
    work.find(
        "unit-not-where-move-starts",
        f"{doing} from {start}, but it is {where}",
        suggestion=f"start the move where {unit} stands{other}",
        unit=unit,
        bay=start,
    )


def arrive(work: Work, unit: str | None, route: Route, *, open_end: bool) -> None:
    """Put the unit where the step leads it.

    Where a fault in the way leaves that open, or something else that the step gets wrong (`open_end`), the
    unit is in doubt; it is known again where it comes to belong.
    """
    if unit is None:
        if route.end is not None:
            work.owe(Sort.UNIT, route.end)
        return
    if route.end is None:
        work.doubt(Sort.UNIT, unit)
        return
    in_doubt = work.ledger.in_doubt(Sort.UNIT, unit)
    misnamed = in_doubt and work.state.units.get(unit) == route.start
    doors = work.scene.doors_at(route.hops[-1].at_door) if route.end == OUTSIDE and route.hops else ()
    work.put_unit(unit, route.end, doors[0] if len(doors) == 1 else None)
    work.settle(Sort.UNIT, unit)
    astray = (in_doubt or open_end) and not work.at_goal(unit)
    if not route.sound or misnamed or astray:
        work.doubt(Sort.UNIT, unit)
