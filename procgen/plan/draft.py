"""Bring one unit after the other to its goal, doing by hand only what each run needs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import takewhile

from procgen.model.words import OUTSIDE, RestraintState
from procgen.plan.blocked import headed, why_no_run, why_no_way
from procgen.plan.crew import LEAST, crew
from procgen.plan.events import OFF, ON, SWITCH, Event, Move, Purpose, Touch
from procgen.plan.load import Load, pinned
from procgen.plan.machine import Hop, Machine
from procgen.plan.pulling import gear_for
from procgen.plan.route import Router
from procgen.plan.run import LOWERED, RAISED, Mode, Run, Setting, solve
from procgen.results.plan import Reason
from procgen.results.state import State


@dataclass(slots=True)
class Draft:
    """The plan in the making: how everything stands by now, and what has happened so far."""

    router: Router
    restraints: dict[str, RestraintState]
    units: dict[str, str]
    is_on: bool
    beyond: Mapping[tuple[str, str], frozenset[str]]
    events: list[Event] = field(default_factory=list)

    @property
    def machine(self) -> Machine:
        """The hold."""
        return self.router.machine

    def bring(self, load: Load) -> Reason | None:
        """Move one unit from where it is to its goal; the reason where that fails."""
        others = {name: bay for name, bay in self.units.items() if name != load.name and bay != OUTSIDE}
        pins = pinned(self.machine, others.values())
        setting = Setting(self.restraints, pins, self.beyond.get((load.name, load.goal), frozenset()))
        way = self.router.way(load, others.values(), setting)
        if way is None:
            return headed([load], why_no_way(self.router, load, others, setting))
        left: Sequence[tuple[Hop, Mode]] = way.hops
        self._secure_beyond(load, [hop for hop, _ in left])
        while left:
            run = self._longest(left, setting)
            if run is None:
                cause = why_no_run(self.router, load, left[0][0], others, setting)
                return headed([load], cause)
            self._move(load, run)
            left = left[len(run.hops) :]
        return None

    def _secure_beyond(self, load: Load, hops: Sequence[Hop]) -> None:
        """Raise what will hold the unit on its far sides before it comes: it stands in the way afterwards.

        Only what is worked from inside and does not stand on the unit's own way.
        """
        if load.goal == OUTSIDE:
            return
        own = {
            item
            for hop in hops
            for item in (
                *self.machine.standing.get(frozenset((hop.start, hop.end)), ()),
                *self.machine.guiding.get((hop.start, hop.end), ()),
            )
        }
        for item in self.machine.held_by(load.goal):
            if item in own or self.restraints[item] is RAISED or not self.machine.moves_by_hand(item):
                continue
            if self.machine.is_inside(item) and not self.machine.is_interlock(item):
                self.touch(item, RAISED, Purpose.SECURE)

    def _longest(self, left: Sequence[tuple[Hop, Mode]], setting: Setting) -> Run | None:
        """As many hops in one direction as one step can take; in any direction where a load is stowed."""
        first, mode = left[0]

        def goes_on(each: tuple[Hop, Mode]) -> bool:
            return each[1] is mode and (each[0].go is first.go or mode is Mode.STOW)

        hops = [hop for hop, _ in takewhile(goes_on, left)]
        runs = (solve(self.machine, hops[:count], mode, setting) for count in range(len(hops), 0, -1))
        return next((run for run in runs if run is not None), None)

    def _move(self, load: Load, run: Run) -> None:
        for item, state in sorted(run.touches, key=self._by_interlock):
            self.touch(item, state, Purpose.WAY)
        if run.needs_power and not self.is_on:
            self.switch(True)
        self.events.append(Move(load, run, self._people(load, run), self._gear(load, run)))
        for item in run.dropped:
            self.restraints[item] = LOWERED
        self.units[load.name] = run.hops[-1].end

    def _people(self, load: Load, run: Run) -> int:
        leave = self.machine.hold.hand_moves
        if run.mode is Mode.STOW:
            return LEAST
        return crew(leave, load.unit_type) if leave is not None and run.mode is Mode.PUSH else 0

    def _gear(self, load: Load, run: Run) -> str | None:
        if run.mode is not Mode.PUSH:
            return None
        others = [bay for name, bay in self.units.items() if name != load.name and bay != OUTSIDE]
        return gear_for(self.machine, load.unit_type, run.hops, others)

    def _by_interlock(self, touch: tuple[str, RestraintState]) -> tuple[bool, bool, int]:
        return not self.machine.is_interlock(touch[0]), touch[1] is RAISED, self.machine.rank[touch[0]]

    def secure(self, is_last: bool) -> None:
        """Raise whatever holds a unit and is down; after the last unit only what is inside.

        What is worked from outside, and what power depends on, is then raised in the closing order.
        """
        for bay in self.units.values():
            for item in self.machine.held_by(bay):
                if self.restraints[item] is RAISED or not self.machine.moves_by_hand(item):
                    continue
                if is_last and (self.machine.is_interlock(item) or not self.machine.is_inside(item)):
                    continue
                self.touch(item, RAISED, Purpose.SECURE)

    def touch(self, item: str, state: RestraintState, purpose: Purpose) -> None:
        """Raise or lower a restraint by hand, power off first where the hold asks for it."""
        power = self.machine.hold.power
        guarded = power is not None and not power.interlock_moves_while_on
        if self.is_on and guarded and self.machine.is_interlock(item):
            self.switch(False)
        self.restraints[item] = state
        self.events.append(Touch(item, state, purpose))

    def switch(self, on: bool) -> None:
        """Set the power switch."""
        self.is_on = on
        self.events.append(Touch(SWITCH, ON if on else OFF, Purpose.WAY))


def draft(
    router: Router, start: State, loads: Sequence[Load], beyond: Mapping[tuple[str, str], frozenset[str]]
) -> Draft | Reason:
    """All loads moved in this order; or the reason why one cannot be.

    `beyond` names the restraints that nobody can get at as a unit moves to its goal.
    """
    power = router.machine.hold.power
    made = Draft(
        router,
        standing(start),
        dict(start.units),
        power is not None and router.machine.has_power() and start.controls.get(power.switch) == power.on,
        beyond,
    )
    for index, load in enumerate(loads):
        reason = made.bring(load)
        if reason is not None:
            return reason
        made.secure(is_last=index == len(loads) - 1)
    return made


def standing(start: State) -> dict[str, RestraintState]:
    """How the restraints stand, those out of service as they are stuck."""
    states: Mapping[str, RestraintState] = {**start.restraints, **start.stuck}
    return dict(states)
