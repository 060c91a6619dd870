"""A procedure broken off half way: what is known of it, and the first things done, whatever went wrong."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from procgen.model.hazard import Hazard, HazardList
from procgen.model.hold import Hold
from procgen.model.step import Check, Open, Procedure, Report, SetControl, Step
from procgen.model.unit import UnitType
from procgen.model.words import Stand
from procgen.pipeline.broken_off_checks import BreakingOff, breaking_off
from procgen.results.plan import Plan, Reason
from procgen.results.recovery import Answer, Outcome
from procgen.results.state import State
from procgen.results.trace import Trace
from procgen.simulate import simulate
from procgen.write import compose, titled

EVERYONE_OUT = "everyone-out"
BROKEN_OFF_TOLD = "broken-off-told"


@dataclass(slots=True)
class BrokenOff:
    """One procedure with its trace and the hazards met in it.

    `known` keeps what was answered, however many steps ask it.
    """

    hold: Hold
    unit_types: Mapping[str, UnitType]
    hazards: HazardList
    procedure: Procedure
    trace: Trace
    met: tuple[Hazard, ...]
    known: dict[Hashable, Answer] = field(default_factory=dict)

    @property
    def checks(self) -> BreakingOff:
        """The checks with which work in this hold is broken off."""
        return breaking_off(self.hold)

    def power(self, state: State, *, on: bool) -> tuple[Step, ...]:
        """The power switch set, its panel open; nothing where it stands so or is not at hand."""
        power = self.hold.power
        control = self.hold.controls.get(power.switch) if power is not None else None
        if power is None or control is None or control.at is Stand.INSIDE or power.switch in state.dead:
            return ()
        wanted = power.on if on else power.off
        if state.controls.get(power.switch, control.rest) == wanted:
            return ()
        closed = control.behind is not None and control.behind not in state.open_panels
        panel = self.hold.panels[control.behind] if closed and control.behind is not None else None
        opened: tuple[Step, ...] = (Open(panel.name, panel.place),) if panel is not None else ()
        return (*opened, SetControl(power.switch, wanted, control.place))

    def call(self, safe: Sequence[Step], state: State, unit: str, reasons: tuple[Reason, ...]) -> Answer:
        """Made safe and guarded, because there is no way."""
        made = self.procedure
        place = self.hold.place
        guarded = (*safe, Check(self.checks.guarded, None, place), Report(BROKEN_OFF_TOLD, place))
        plan = Plan(made.hold, made.operation, made.units, state, guarded, made.aboard)
        composed = compose(plan, self.hold, self.hazards, self.met)
        self.run(composed.steps, state)
        return titled(Answer(Outcome.CALL, composed, state, unit, reasons))

    def run(self, steps: Sequence[Step], state: State) -> Trace:
        """Simulate some steps from a state; what they find wrong is a fault of the program."""
        trace = simulate(self.hold, self.unit_types, replace(self.procedure, steps=tuple(steps)), state)
        for traced in trace.steps:
            if traced.findings:
                raise RuntimeError(f"{self.procedure.name}: {traced.findings[0].message}")
        return trace


def state_key(state: State) -> Hashable:
    """All of a state that a recovery depends on: what was checked before does not count any more."""
    return (
        tuple(state.restraints.items()),
        tuple(state.controls.items()),
        state.open_panels,
        state.open_doors,
        tuple(sorted(state.units.items())),
        state.inside,
        tuple(state.stuck.items()),
        state.dead,
        state.jammed,
        tuple(sorted(state.at_door.items())),
        tuple(sorted((door, tuple(sorted(seen))) for door, seen in state.latch_seen.items())),
    )
