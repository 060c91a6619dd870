"""Put a plan into steps: sections, doors, panels, hand actions, checks and moves in their order."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from procgen.model.step import Check, CheckItems, CheckLatch, Close, Section, Step
from procgen.model.words import Looker, RestraintState, SectionName, Stand
from procgen.plan.closing import left_on, position_at_end
from procgen.plan.events import OFF, ON, SWITCH, Event, Move, Touch, dropped
from procgen.plan.load import Load
from procgen.plan.machine import Machine, door_at, door_of
from procgen.plan.run import LOWERED, RAISED
from procgen.plan.writer import Course, Writer
from procgen.results.state import State


def write_steps(machine: Machine, start: State, course: Course, makes_safe: bool = False) -> tuple[Step, ...]:
    """All steps of a plan; none where nothing has to be done.

    `makes_safe`: before anything is touched everyone is out, where somebody may be inside.
    """
    hold = machine.hold
    writer = Writer(
        machine,
        start,
        open_doors=[name for name in hold.doors if name in start.open_doors],
        open_panels=[name for name in hold.panels if name in start.open_panels],
    )
    is_faulty = _is_dead_and_on(machine, start)
    if course.early or course.events or course.closing or is_faulty or _ends_inside(writer, course):
        _prepare(writer, course, makes_safe and start.inside)
    if any(isinstance(event, Move) for event in course.events):
        writer.section(SectionName.MOVE_UNITS)
        _move_units(writer, course.events)
    _close(writer, course)
    return tuple(writer.steps)


def _prepare(writer: Writer, course: Course, empties: bool) -> None:
    """What makes safe; doors open; interlocks and the way lowered; panels; power; guides up; looks."""
    machine = writer.machine
    head = len(writer.steps)
    if empties:
        writer.steps.append(Check("everyone-out", None, machine.hold.place))
    if _is_dead_and_on(machine, writer.start):
        writer.touch(SWITCH, OFF)
    writer.open(course.doors)
    items = [touch for touch in course.early if touch.what != SWITCH]
    items.sort(key=lambda touch: (not machine.is_interlock(touch.what), machine.rank[touch.what]))
    before = [touch for touch in items if touch.to == LOWERED or machine.is_interlock(touch.what)]
    for touch in before:
        writer.touch(touch.what, touch.to)
    for panel in _panels(machine, course):
        writer.open_panel(panel)
    for touch in course.early:
        if touch.what == SWITCH:
            writer.touch(SWITCH, touch.to)
    for touch in items:
        if touch not in before:
            writer.touch(touch.what, touch.to)
    for state in (RAISED, LOWERED):
        presumed = _presumed(machine, course, state)
        if presumed:
            writer.steps.append(CheckItems(presumed, state, machine.hold.restraints[presumed[0]].place))
    if len(writer.steps) > head:
        writer.steps.insert(head, Section(SectionName.PREPARE, machine.hold.place))


def _is_dead_and_on(machine: Machine, start: State) -> bool:
    """Whether the switch of a power that does not work was left on."""
    power = machine.hold.power
    if power is None or "power" not in machine.dead or power.switch in machine.dead:
        return False
    return start.controls.get(power.switch) != power.off


def _move_units(writer: Writer, events: Sequence[Event]) -> None:
    moving: Load | None = None
    for event in events:
        if isinstance(event, Touch):
            writer.touch(event.what, event.to)
        else:
            writer.move(event, is_first=event.load is not moving)
            moving = event.load


def _close(writer: Writer, course: Course) -> None:
    """What is left inside; everyone out; sill and interlock items; power off; all closed and latched."""
    machine, power = writer.machine, writer.machine.hold.power
    is_on, left = _is_on(machine, writer.start, course), left_on(machine, writer.start)
    if not (
        course.closing or writer.open_doors or writer.open_panels or is_on or left or writer.start.inside
    ):
        if any(_latches_due(writer)):
            writer.section(SectionName.SECURE_AND_CLOSE)
            _look_at_latches(writer)
        return
    writer.section(SectionName.SECURE_AND_CLOSE)
    guarded = power is not None and not power.interlock_moves_while_on
    if is_on and guarded and any(machine.is_interlock(item) for item, _ in course.closing):
        writer.touch(SWITCH, OFF)
        is_on = False
    for item, state in course.closing:
        if machine.is_inside(item):
            writer.touch(item, state)
    earliest = len(writer.steps)
    for item, state in course.closing:
        if not machine.is_inside(item):
            writer.touch(item, state)
    if is_on:
        writer.touch(SWITCH, OFF)
    for control in left:
        writer.set(control, position_at_end(machine, control))
    writer.close_panels()
    out = Check("everyone-out", None, machine.hold.place)
    writer.steps.insert(max(earliest, writer.last_inside + 1), out)
    for name in writer.open_doors:
        writer.steps.append(Close(name, machine.hold.doors[name].place))
        writer.steps.append(CheckLatch(name, Looker.CLOSER, machine.hold.doors[name].place))
    _look_at_latches(writer)


def _look_at_latches(writer: Writer) -> None:
    """The looks that are still due once every door is closed: who closed one first, then a second person."""
    due = list(_latches_due(writer))
    for looker in Looker:
        for door, by in due:
            if by is looker:
                writer.steps.append(CheckLatch(door, by, writer.machine.hold.doors[door].place))


def _latches_due(writer: Writer) -> Iterator[tuple[str, Looker]]:
    """Doors that this plan closes, and those closed before that were not looked at by everybody since."""
    for door in writer.machine.hold.doors:
        if door in writer.open_doors:
            yield door, Looker.SECOND
        elif door in writer.start.latch_seen:
            yield from ((door, by) for by in Looker if by not in writer.start.latch_seen[door])


def _ends_inside(writer: Writer, course: Course) -> bool:
    """Whether something is left to do at the end that takes a person inside, though no item is moved."""
    machine, power = writer.machine, writer.machine.hold.power
    controls = left_on(machine, writer.start)
    if power is not None and _is_on(machine, writer.start, course):
        controls.append(power.switch)
    worked = [machine.hold.controls[name] for name in controls]
    behind = {control.behind for control in worked} | set(writer.open_panels)
    for _ in machine.hold.panels:  # each time one more panel over those already found
        behind |= {one.behind for one in machine.hold.panels.values() if one.name in behind}
    panels = [panel for panel in machine.hold.panels.values() if panel.name in behind]
    stands = [control.at for control in worked] + [panel.at for panel in panels]
    return Stand.INSIDE in stands


def _is_on(machine: Machine, start: State, course: Course) -> bool:
    power = machine.hold.power
    if power is None or _is_dead_and_on(machine, start):
        return False
    switched = [
        event.to
        for event in (*course.early, *course.events)
        if isinstance(event, Touch) and event.what == SWITCH
    ]
    return switched[-1] == ON if switched else start.controls.get(power.switch) != power.off


def doors(machine: Machine, events: Sequence[Event]) -> list[str]:
    """The doors that units go through or items are reached at, in the order of the description.

    Where any door will do, the first of the hold.
    """
    used = {
        door_of(machine.hold, hop) for event in events if isinstance(event, Move) for hop in event.run.hops
    }
    touched = [event.what for event in events if isinstance(event, Touch) and event.what != SWITCH]
    used.update(door_at(machine.hold, item) for item in touched)
    found = [name for name in machine.hold.doors if name in used]
    return found or list(machine.hold.doors)[:1]


def _panels(machine: Machine, course: Course) -> list[str]:
    """The panels over the controls that are worked, in the order of the description."""
    power = machine.hold.power
    worked: set[str] = set()
    for event in (*course.early, *course.events):
        if isinstance(event, Move):
            worked.update(event.run.hold)
        elif event.what == SWITCH and power is not None:
            worked.add(power.switch)
    behind = {machine.hold.controls[control].behind for control in worked}
    return [name for name in machine.hold.panels if name in behind]


def _presumed(machine: Machine, course: Course, state: RestraintState) -> tuple[str, ...]:
    """The items on the way that are left as they stand because they stand rightly, to be looked at."""
    touched = {touch.what for touch in course.early}
    found: set[str] = set()
    for event in course.events:
        if isinstance(event, Touch):
            touched.add(event.what)
        else:
            found.update(
                item for item, asked in event.run.presumes.items() if asked is state and item not in touched
            )
        touched.update(dropped(event))
    return tuple(
        name for name in machine.hold.restraints if name in found and not machine.hold.restraints[name].fixed
    )
