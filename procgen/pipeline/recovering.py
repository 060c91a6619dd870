"""For every step of a procedure and every mishap the way out: made safe, planned, proven; or whom to call.

A way is published only if its simulation has no finding: one that has any is a fault of the program, and
raises. What cannot be planned leaves the hold safe as it is, and somebody is called.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from procgen.model.hazard import HazardList
from procgen.model.hold import Hold
from procgen.model.step import Check, Close, Drive, Procedure, Push, Report, Section, Step, Stow
from procgen.model.unit import UnitType
from procgen.model.words import OUTSIDE
from procgen.pipeline.broken_off import (
    BROKEN_OFF_TOLD,
    EVERYONE_OUT,
    BrokenOff,
    state_key,
)
from procgen.pipeline.broken_off_checks import CONDITIONS as BREAKING_OFF
from procgen.pipeline.entering import Entering
from procgen.pipeline.mishaps import Moment, mishaps_at, moments
from procgen.plan import recover
from procgen.results.plan import Aim, Reason, Recovery
from procgen.results.recovery import OUTCOMES, Answer, Case, Mishap, Outcome
from procgen.results.state import State
from procgen.results.trace import Trace
from procgen.simulate import simulate
from procgen.write import compose, met, titled

JAM_LEFT_ALONE, PLACE_TOLD = "jam-left-alone", "place-told"
CONDITIONS = BREAKING_OFF | {JAM_LEFT_ALONE, PLACE_TOLD}
"""The checks of the hazard list that only a recovery makes."""
REPORTS = frozenset({BROKEN_OFF_TOLD})
"""The reports that only a recovery makes."""


@dataclass(frozen=True, slots=True)
class _Recovering:
    """The ways out of one procedure."""

    of: BrokenOff
    entering: Entering

    def case(self, moment: Moment, mishap: Mishap, state: State) -> Case:
        """The answer to one mishap at one moment."""
        if mishap is Mishap.PERSON:
            answer = self.entering.answer(moment, state)
        elif not moment.is_between:
            answer = self.technical(mishap, state, moment.unit)
        elif mishap is Mishap.JAMMED:
            answer = self._held_nowhere(mishap, state, moment)
        else:
            answer = self._between(mishap, state, moment)
        return Case(moment.index, mishap, moment.places, answer)

    # --- power, drive, jam

    def technical(self, mishap: Mishap, state: State, unit: str, best: Aim = Aim.FINISH) -> Answer:
        """Stop and make safe, then what the planner finds; or guard it and call."""
        key = (mishap is Mishap.JAMMED, unit, best, state_key(state))
        if key not in self.of.known:
            self.of.known[key] = self._technical(mishap, state, unit, best)
        return self.of.known[key]

    def _technical(self, mishap: Mishap, state: State, unit: str, best: Aim) -> Answer:
        made, safe = self.of.procedure, self._made_safe(mishap, state)
        after = self.of.run(safe, state).final
        found = recover(
            self.of.hold, self.of.unit_types, after, made.operation, made.units, made.aboard, best=best
        )
        if not isinstance(found, Recovery):
            return self.of.call(safe, state, unit, found.reasons)
        steps = _joined(safe, found.plan.steps)
        if found.aim in (Aim.SECURE, Aim.EMPTY) or _displaced(made, after, found.plan.steps):
            steps = _before_closing(steps, Check(PLACE_TOLD, None, self.of.hold.place))
        steps = (*steps, Report(BROKEN_OFF_TOLD, self.of.hold.place))
        composed = compose(
            replace(found.plan, start=state, steps=steps), self.of.hold, self.of.hazards, self.of.met
        )
        findings = simulate(self.of.hold, self.of.unit_types, composed, state).findings
        if findings:
            raise RuntimeError(f"{made.name}: a way out does not hold: {findings[0].message}")
        return titled(Answer(OUTCOMES[found.aim], composed, state, unit))

    def _made_safe(self, mishap: Mishap, state: State) -> tuple[Step, ...]:
        """Everything let go, the power switch off, a jam left alone, everyone out."""
        steps: list[Step] = [
            Check(self.of.checks.stopped, None, self.of.hold.place),
            *self.of.power(state, on=False),
        ]
        if mishap is Mishap.JAMMED:
            steps.append(Check(JAM_LEFT_ALONE, None, self.of.hold.place))
        if state.inside:
            steps.append(Check(EVERYONE_OUT, None, self.of.hold.place))
        return tuple(steps)

    # --- between two places

    def _between(self, mishap: Mishap, state: State, moment: Moment) -> Answer:
        """Where the way out from one of the two places begins by moving the unit on over the same floor, it
        is the way out from between them too: whatever stands there is under the unit and is not touched.
        """
        here, there = moment.places
        ahead = replace(moment.ahead or state, dead=state.dead)
        tries = (
            (state, here, there, Aim.FINISH),
            (ahead, there, here, Aim.FINISH),
            (ahead, there, here, Aim.TAKE_OUT),
        )
        for start, place, other, best in tries:
            if place == OUTSIDE:
                continue
            answer = self.technical(mishap, start, moment.unit, best)
            if answer.outcome is not Outcome.CALL and self._begins_with(
                answer.procedure, moment.unit, (place, other)
            ):
                return answer
        return self._held_nowhere(mishap, state, moment)

    def _begins_with(self, procedure: Procedure, unit: str, pair: tuple[str, str]) -> bool:
        ground = {place for end in pair for place in (end, *self._sharing(end))}
        for step in procedure.steps:
            if isinstance(step, Drive | Push | Stow):
                return step.unit == unit and step.through[:2] == pair
            item = self.of.hold.restraints.get(getattr(step, "item", ""))
            if item is not None and item.between is not None and ground.issuperset(item.between):
                return False
        return False

    def _sharing(self, place: str) -> frozenset[str]:
        return self.of.hold.overlapping(place) if place in self.of.hold.bays else frozenset()

    def _held_nowhere(self, mishap: Mishap, state: State, moment: Moment) -> Answer:
        here, there = moment.places
        bay = self.of.hold.bays[here if here in self.of.hold.bays else there]
        reason = Reason(f"{moment.unit} stands between {here} and {there}, where nothing holds it", bay.place)
        key = (mishap is Mishap.JAMMED, moment.unit, moment.places, state_key(state))
        if key not in self.of.known:
            self.of.known[key] = self.of.call(self._made_safe(mishap, state), state, moment.unit, (reason,))
        return self.of.known[key]


def recoveries(
    hold: Hold,
    unit_types: Mapping[str, UnitType],
    hazards: HazardList,
    procedure: Procedure,
    trace: Trace,
    only: int | None = None,
) -> tuple[Case, ...]:
    """Every mishap at every step of a procedure while a door is open, with its answer.

    `only` is the index of the one step that is asked about, if it is one. `trace` is the procedure's own,
    without a finding. Raises `RuntimeError` where a way that was planned does not hold in simulation: that is
    a fault of this program.
    """
    worked = met(procedure.steps, hold, procedure.operation, hazards.hazards.values())
    broken = BrokenOff(hold, unit_types, hazards, procedure, trace, worked)
    making = _Recovering(broken, Entering(broken))
    return tuple(
        making.case(moment, mishap, state)
        for moment in moments(hold, unit_types, procedure, trace)
        if only in (None, moment.index)
        for mishap, state in mishaps_at(hold, procedure.steps[moment.index], moment)
    )


def _joined(safe: Sequence[Step], rest: Sequence[Step]) -> tuple[Step, ...]:
    """The steps that make safe, and the rest; where both count everyone out in a row, it is done once."""
    first = next((step for step in rest if not isinstance(step, Section)), None)
    counted = isinstance(first, Check) and first.condition == EVERYONE_OUT
    return (*(step for step in safe if not (counted and step == first)), *rest)


def _displaced(procedure: Procedure, state: State, steps: Sequence[Step]) -> bool:
    """Whether a unit that was to stay aboard ends elsewhere: it came out for others, and is not put back."""
    ends = {step.unit: step.through[-1] for step in steps if isinstance(step, Drive | Push | Stow)}
    return any(
        ends.get(unit.name, state.units.get(unit.name)) != unit.bay for unit in procedure.aboard.values()
    )


def _before_closing(steps: Sequence[Step], check: Step) -> tuple[Step, ...]:
    index = next((i for i, step in enumerate(steps) if isinstance(step, Close)), len(steps))
    return (*steps[:index], check, *steps[index:])
