"""Write steps down one by one, and know meanwhile what they do to people and panels."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from procgen.diagnostics import Place
from procgen.model.step import (
    Check,
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
    Stow,
)
from procgen.model.words import OUTSIDE, RestraintKind, RestraintState, SectionName, Stand
from procgen.plan.closing import position_at_end
from procgen.plan.events import ON, SWITCH, Event, Move, Touch
from procgen.plan.machine import Machine, door_of
from procgen.plan.run import RAISED, Mode
from procgen.results.state import State


@dataclass(frozen=True, slots=True)
class Course:
    """Everything that happens, in three parts: before the first unit, unit by unit, at the end.

    `doors` are those that have to be open meanwhile, in the order of the description; `put_back` the
    units that come out only because others could not pass.
    """

    doors: Sequence[str]
    early: Sequence[Touch]
    events: Sequence[Event]
    closing: Sequence[tuple[str, RestraintState]]
    put_back: tuple[str, ...] = ()


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
    has_pushed: bool = False
    moved: set[str] = field(default_factory=set)

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
            if hold.power is not None:
                name = hold.power.switch
                self.set(name, hold.power.on if to == ON else position_at_end(self.machine, name))
            return
        item = hold.restraints[what]
        is_net = item.kind is RestraintKind.NET
        up, down = (Fit, Remove) if is_net else (Raise, Lower)
        verb = up if to == RAISED else down
        self.do(verb(what, item.place), self.machine.is_inside(what))

    def set(self, name: str, position: str) -> None:
        """Set a control that stays, its panel open."""
        control = self.machine.hold.controls[name]
        if control.behind is not None:
            self.open_panel(control.behind)
        self.do(SetControl(name, position, control.place), control.at is Stand.INSIDE)

    def open(self, doors: Sequence[str]) -> None:
        """Open doors that are not open."""
        for name in doors:
            if name not in self.open_doors:
                self.open_doors.append(name)
                self.do(Open(name, self.machine.hold.doors[name].place), False)

    def open_panel(self, name: str) -> None:
        """Open a panel if it is not open, and before it what it is behind."""
        panel = self.machine.hold.panels[name]
        if panel.behind is not None:
            self.open_panel(panel.behind)
        if name not in self.open_panels:
            self.open_panels.append(name)
            self.do(Open(name, panel.place), panel.at is Stand.INSIDE)

    def close_panels(self) -> None:
        """Close the open panels, each before the one that it is behind."""
        panels = self.machine.hold.panels

        def depth(name: str) -> int:
            over = panels[name].behind
            return 0 if over is None else 1 + depth(over)

        for name in sorted(self.open_panels, key=depth, reverse=True):
            self.do(Close(name, panels[name].place), panels[name].at is Stand.INSIDE)

    def move(self, move: Move, is_first: bool) -> None:
        """Present the unit, confirm the path where that is due, and move it.

        Whoever stows a load is inside meanwhile, so that no path is confirmed for it; whoever has pushed one
        is still inside, and out of the way of a drive or a pull only when that was confirmed.
        """
        load, run, hold = move.load, move.run, self.machine.hold
        place = hold.positions[load.unit.bay].place if load.unit.bay in hold.positions else hold.place
        if is_first and load.start == OUTSIDE and not self._is_at_door(move):
            door = door_of(hold, run.hops[0]) if len(hold.doors) > 1 else None
            self.steps.append(Present(load.name, door, place))
        through = (run.hops[0].start, *(hop.end for hop in run.hops))
        self.moved.add(load.name)
        if run.mode is Mode.STOW:
            self.do(Stow(load.name, move.crew, through, place), True)
            return
        is_drive = run.mode is Mode.DRIVE
        if is_first or not self.is_clear or (self.has_pushed and (is_drive or move.gear is not None)):
            self.steps.append(Check("path-clear", None, place))
            self.is_clear, self.has_pushed = True, False
        if is_drive:
            self.steps.append(Drive(load.name, run.hold, through, self._drive_place(move)))
        else:
            leave = hold.hand_moves.place if hold.hand_moves else hold.place
            self.steps.append(Push(load.name, move.crew, through, run.hold, leave, move.gear))
            if move.gear is None:
                self.has_pushed, self.last_inside = True, len(self.steps) - 1

    def _is_at_door(self, move: Move) -> bool:
        """Whether the unit stands already at the door that it is to go through."""
        name, hold = move.load.name, self.machine.hold
        if name in self.moved or self.start.units.get(name) != OUTSIDE:
            return False
        return len(hold.doors) < 2 or self.start.at_door.get(name) == door_of(hold, move.run.hops[0])

    def _drive_place(self, move: Move) -> Place:
        hop = move.run.hops[0]
        for drive in self.machine.hold.drives.values():
            runs = move.run.hold.get(drive.run_by) == drive.go.get(hop.go, "")
            if runs and (hop.start in drive.under or hop.end in drive.under):
                return drive.place
        return self.machine.hold.place
