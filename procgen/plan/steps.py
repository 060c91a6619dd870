"""Put a plan into steps: sections, doors, panels, hand actions, checks and moves in their order."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from procgen.diagnostics import Place
from procgen.model.step import (
    Check,
    CheckItems,
    Close,
    Drive,
    Fit,
    Lower,
    Open,
    Present,
    Push,
    Raise,
    Remove,
    Section,
    SetControl,
    Step,
)
from procgen.model.words import OUTSIDE, RestraintKind, RestraintState, SectionName, Stand
from procgen.plan.events import OFF, ON, SWITCH, Event, Move, Touch, dropped
from procgen.plan.load import Load
from procgen.plan.machine import Machine, door_at, door_of
from procgen.plan.run import LOWERED, RAISED
from procgen.results.state import State


@dataclass(frozen=True, slots=True)
class Course:
    """Everything that happens, in three parts: before the first unit, unit by unit, at the end."""

    early: Sequence[Touch]
    events: Sequence[Event]
    closing: Sequence[tuple[str, RestraintState]]


@dataclass(slots=True)
class Writer:
    """Writes steps down, and knows meanwhile who may be inside and whether the path was confirmed."""

    machine: Machine
    start: State
    steps: list[Step] = field(default_factory=list)
    is_clear: bool = False
    last_inside: int = -1
    open_doors: list[str] = field(default_factory=list)
    open_panels: list[str] = field(default_factory=list)

    def section(self, name: SectionName) -> None:
        """Start a part of the procedure."""
        self.steps.append(Section(name, self.machine.hold.place))

    def do(self, step: Step, is_inside: bool) -> None:
        """Write a hand action down; one done inside undoes the confirmation of the path."""
        self.steps.append(step)
        if is_inside:
            self.is_clear = False
            self.last_inside = len(self.steps) - 1

    def touch(self, what: str, to: str) -> None:
        """Raise, lower, fit or remove a restraint, or set the power switch."""
        hold = self.machine.hold
        if what == SWITCH:
            power = hold.power
            if power is not None:
                control = hold.controls[power.switch]
                position = power.on if to == ON else power.off
                step = SetControl(power.switch, position, control.place)
                self.do(step, control.at is Stand.INSIDE)
            return
        item = hold.restraints[what]
        is_net = item.kind is RestraintKind.NET
        up, down = (Fit, Remove) if is_net else (Raise, Lower)
        verb = up if to == RAISED else down
        self.do(verb(what, item.place), self.machine.is_inside(what))

    def open(self, doors: Sequence[str]) -> None:
        """Open doors that are not open."""
        for name in doors:
            if name not in self.open_doors:
                self.open_doors.append(name)
                self.do(Open(name, self.machine.hold.doors[name].place), False)

    def open_panel(self, name: str) -> None:
        """Open a panel if it is not open."""
        panel = self.machine.hold.panels[name]
        if name not in self.open_panels:
            self.open_panels.append(name)
            self.do(Open(name, panel.place), panel.at is Stand.INSIDE)

    def move(self, move: Move, is_first: bool) -> None:
        """Present the unit, confirm the path where that is due, and move it."""
        load, run, hold = move.load, move.run, self.machine.hold
        place = hold.positions[load.unit.bay].place if load.unit.bay in hold.positions else hold.place
        if is_first and load.start == OUTSIDE and load.name not in self.start.units:
            self.steps.append(Present(load.name, place))
        if is_first or not self.is_clear:
            self.steps.append(Check("path-clear", None, place))
            self.is_clear = True
        through = (run.hops[0].start, *(hop.end for hop in run.hops))
        if run.is_drive:
            self.steps.append(Drive(load.name, run.hold, through, self._drive_place(move)))
        else:
            leave = hold.hand_moves.place if hold.hand_moves else hold.place
            self.steps.append(Push(load.name, move.crew, through, run.hold, leave))

    def _drive_place(self, move: Move) -> Place:
        hop = move.run.hops[0]
        for drive in self.machine.hold.drives.values():
            runs = move.run.hold.get(drive.run_by) == drive.go.get(hop.go, "")
            if runs and (hop.start in drive.under or hop.end in drive.under):
                return drive.place
        return self.machine.hold.place


def write_steps(machine: Machine, start: State, course: Course) -> tuple[Step, ...]:
    """All steps of a plan; none where nothing has to be done."""
    hold = machine.hold
    writer = Writer(
        machine,
        start,
        open_doors=[name for name in hold.doors if name in start.open_doors],
        open_panels=[name for name in hold.panels if name in start.open_panels],
    )
    if course.early or course.events or course.closing:
        _prepare(writer, course)
    if any(isinstance(event, Move) for event in course.events):
        writer.section(SectionName.MOVE_UNITS)
        _move_units(writer, course.events)
    _close(writer, course)
    return tuple(writer.steps)


def _prepare(writer: Writer, course: Course) -> None:
    """Doors open; interlocks and the way lowered; panels; power; guides up; the rest looked at."""
    machine = writer.machine
    head = len(writer.steps)
    writer.open(_doors(machine, course))
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


def _move_units(writer: Writer, events: Sequence[Event]) -> None:
    moving: Load | None = None
    for event in events:
        if isinstance(event, Touch):
            writer.touch(event.what, event.to)
        else:
            writer.move(event, is_first=event.load is not moving)
            moving = event.load


def _close(writer: Writer, course: Course) -> None:
    """What is left inside; everyone out; sill and interlock items; power off; panels and doors closed."""
    machine, power = writer.machine, writer.machine.hold.power
    is_on = _is_on(machine, writer.start, course)
    busy = bool(course.closing or writer.open_doors or writer.open_panels or is_on or writer.start.inside)
    if not busy:
        return
    writer.section(SectionName.SECURE_AND_CLOSE)
    earliest = len(writer.steps)
    guarded = power is not None and not power.interlock_moves_while_on
    if is_on and guarded and any(machine.is_interlock(item) for item, _ in course.closing):
        _switch_off(writer)
        is_on = False
    for item, state in course.closing:
        if machine.is_inside(item):
            writer.touch(item, state)
    earliest = len(writer.steps)
    for item, state in course.closing:
        if not machine.is_inside(item):
            writer.touch(item, state)
    if is_on:
        _switch_off(writer)
    for name in writer.open_panels:
        panel = machine.hold.panels[name]
        writer.do(Close(name, panel.place), panel.at is Stand.INSIDE)
    out = Check("everyone-out", None, machine.hold.place)
    writer.steps.insert(max(earliest, writer.last_inside + 1), out)
    for name in writer.open_doors:
        writer.steps.append(Close(name, machine.hold.doors[name].place))


def _switch_off(writer: Writer) -> None:
    power = writer.machine.hold.power
    behind = writer.machine.hold.controls[power.switch].behind if power is not None else None
    if behind is not None:
        writer.open_panel(behind)
    writer.touch(SWITCH, OFF)


def _is_on(machine: Machine, start: State, course: Course) -> bool:
    power = machine.hold.power
    if power is None:
        return False
    switched = [
        event.to
        for event in (*course.early, *course.events)
        if isinstance(event, Touch) and event.what == SWITCH
    ]
    return switched[-1] == ON if switched else start.controls.get(power.switch) != power.off


def _doors(machine: Machine, course: Course) -> list[str]:
    """The doors that units go through or items are reached at, in the order of the description.

    Where any door will do, the first of the hold.
    """
    happened = (*course.early, *course.events)
    used = {
        door_of(machine.hold, hop) for event in happened if isinstance(event, Move) for hop in event.run.hops
    }
    touched = [event.what for event in happened if isinstance(event, Touch) and event.what != SWITCH]
    touched += [item for item, _ in course.closing]
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
