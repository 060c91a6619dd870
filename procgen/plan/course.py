"""From a task to everything that happens for it, or the reasons why it cannot be done."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from procgen.model.words import OUTSIDE, RestraintState
from procgen.plan.closing import Target, hopeless, left_to_do, out_of_service, targets
from procgen.plan.draft import Draft, draft, standing
from procgen.plan.events import OFF, ON, SWITCH, Event, Purpose, Touch, cancel, hoist
from procgen.plan.goal import Task, loads, others
from procgen.plan.load import Load, pinned
from procgen.plan.machine import Machine, item_title
from procgen.plan.order import why_stuck
from procgen.plan.reach import Reach, in_front
from procgen.plan.route import Router, router
from procgen.plan.sooner import Unreached, sooner
from procgen.plan.steps import doors
from procgen.plan.through import Company, around, arranged, fewest
from procgen.plan.writer import Course
from procgen.results.plan import Reason

_TRIES = 12
"""How often a plan is drafted anew because a hand action could not be reached."""
Reasons = tuple[Reason, ...]
Beyond = dict[tuple[str, str], frozenset[str]]


def course_of(task: Task, made: Machine) -> Course | Reasons:
    """What has to be done, or the reasons why it cannot be."""
    moving, staying = loads(task), others(task)
    final = {**staying, **{load.name: load.goal for load in moving if load.goal != OUTSIDE}}
    wanted, contradictions = targets(made, final.values())
    reasons = (*contradictions, *out_of_service(made, wanted, task.start))
    if reasons:
        return reasons
    way = router(made)
    liftable = {
        name: (unit, task.unit_types[unit.unit_type])
        for name, unit in {**task.units, **task.aboard}.items()
        if name in staying and name not in task.start.jammed
    }
    company = Company(moving, staying, liftable)

    def with_out(out: tuple[str, ...]) -> Course | Reasons:
        order = around(way, company, out, standing(task.start))
        return why_stuck(way, order, standing(task.start)) or _drafted(task, way, order.loads, wanted)

    found = arranged(way, company, standing(task.start))
    if found.reasons:
        return found.reasons
    course, out = _drafted(task, way, found.order.loads, wanted), found.put_back
    every = tuple(name for name in liftable if name not in out)
    if not isinstance(course, Course) and every and isinstance(with_out((*out, *every)), Course):
        # what is in nobody's way can still be held by what has to be moved
        out = (*out, *every)
        out = fewest(out, lambda some: isinstance(with_out(some), Course), len(out))
        course = with_out(out)
    if not isinstance(course, Course):
        return course
    strayed = (load.name for load in moving if load.name in task.aboard)
    return replace(course, put_back=tuple(dict.fromkeys((*out, *strayed))))


def _drafted(
    task: Task, way: Router, order: Sequence[Load], wanted: Mapping[str, Target]
) -> Course | Reasons:
    """The course of the loads in this order; items that turn out to be out of reach are left alone."""
    made = way.machine
    beyond: Beyond = {}
    first: Reasons = ()
    for _ in range(_TRIES):
        drafted = draft(way, task.start, order, beyond)
        if not isinstance(drafted, Draft):
            return first or (drafted,)
        reasons = hopeless(made, wanted, drafted.restraints)
        if reasons:
            return first or reasons
        course = _reached(task, made, drafted, wanted)
        if isinstance(course, Course):
            return course
        first = first or (_why_unreached(made, course),)
        if course.lowered_for is None:
            return first
        load = course.lowered_for.load
        key, item = (load.name, load.goal), course.touch.what
        if item in beyond.get(key, ()):
            return first
        beyond[key] = beyond.get(key, frozenset()) | {item}
    return first


def _reached(task: Task, made: Machine, drafted: Draft, wanted: Mapping[str, Target]) -> Course | Unreached:
    """The course with every hand action where it can be reached, through as few doors as will do."""
    left = left_to_do(made, wanted, drafted.restraints)
    events = [*cancel(made, drafted.events), *(Touch(name, state, Purpose.CLOSE) for name, state in left)]
    used = doors(made, events)
    every = list(made.hold.doors)
    start, units = _stands(task), task.start.units
    through_used, through_every = (
        Reach(made, task.start.open_doors.union(opened)) for opened in (used, every)
    )
    found = sooner(through_used, events, start, units)
    if not isinstance(found, Unreached):
        return _split(through_used, found, start, units, used)
    found = sooner(through_every, events, start, units)
    if isinstance(found, Unreached):
        return found
    return _split(through_every, found, start, units, every)


def _split(
    reach: Reach,
    events: Sequence[Event],
    start: Mapping[str, str],
    units: Mapping[str, str],
    opened: Sequence[str],
) -> Course:
    """The three parts of a course: what is done before the first unit moves, what after the last."""
    made = reach.machine
    end = len(events)
    while end and _is_closing(events[end - 1]):
        end -= 1
    bays = [bay for bay in units.values() if bay != OUTSIDE]
    holding = {item for item in pinned(made, bays) if not made.is_interlock(item)}
    kept = holding.union(item for item in made.hold.restraints if not reach.reaches(item, bays))
    early, rest = hoist(made, events[:end], start, frozenset(kept))
    closing = [(event.what, RestraintState(event.to)) for event in events[end:] if isinstance(event, Touch)]
    return Course(opened, early, rest, tuple(closing))


def _is_closing(event: Event) -> bool:
    return isinstance(event, Touch) and event.purpose is Purpose.CLOSE


def _stands(task: Task) -> Mapping[str, str]:
    """How everything that can be touched stands at the start."""
    power = task.hold.power
    on = (
        power is not None
        and "power" not in task.start.dead
        and task.start.controls.get(power.switch) == power.on
    )
    return {**standing(task.start), SWITCH: ON if on else OFF}


def _why_unreached(machine: Machine, found: Unreached) -> Reason:
    item = found.touch.what
    bays = {name: bay for name, bay in found.standing.items() if bay != OUTSIDE}
    before_it = in_front(machine, item, bays)
    units = ", ".join(before_it) or "the closed door"
    verb = "raised" if found.touch.to == RestraintState.RAISED else "lowered"
    message = f"{item_title(machine.hold, item)} cannot be {verb}: it is out of reach past {units}"
    came = next((move for move in machine.hold.restraints[item].guides if _came(move, before_it, bays)), None)
    if came is not None and found.touch.to != RestraintState.RAISED:
        message += (
            f"; it must be up to guide a unit from {came[0]} to {came[1]}, where the unit then stands before"
            " it: let it be worked from outside or by a control, or pushed down by the unit"
        )
    return Reason(message, machine.hold.restraints[item].place)


def _came(move: tuple[str, str], units: Sequence[str], bays: Mapping[str, str]) -> bool:
    return any(bays[unit] == move[1] for unit in units)
