"""Somebody has to go in half way: everything stops, in and out, and the procedure goes on as it stood."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from procgen.model.step import Check, Drive, Push, Section, SetControl, Step
from procgen.model.words import SectionName
from procgen.pipeline.broken_off import EVERYONE_OUT, BrokenOff, state_key
from procgen.pipeline.broken_off_checks import ENTRY_DONE, LOOKED_OVER
from procgen.pipeline.mishaps import Moment, way_in
from procgen.results.plan import Plan, Reason
from procgen.results.recovery import Answer, Outcome
from procgen.results.state import State
from procgen.simulate import simulate
from procgen.write import compose, titled

PATH_CLEAR = "path-clear"


@dataclass(frozen=True, slots=True)
class Entering:
    """The entries into one hold while one procedure is worked."""

    of: BrokenOff

    def answer(self, moment: Moment, state: State) -> Answer:
        """Stop, power off, in and out, on again, and the procedure goes on as it stood."""
        if not way_in(self.of.hold, state):
            return self._no_way_in(moment, state)
        step = self.of.procedure.steps[moment.index]
        before = self.of.trace.steps[moment.index]
        place = self.of.hold.place
        off = self.of.power(state, on=False)
        checks = self.of.checks
        steps: list[Step] = [Check(checks.stopped, None, place), *off, Section(SectionName.PREPARE, place)]
        entry = (checks.looked_for, checks.agreed, ENTRY_DONE, EVERYONE_OUT)
        steps += [Check(condition, None, place) for condition in entry]
        steps += self._power_back(state, off)
        steps.append(Check(LOOKED_OVER, None, place))
        if moment.left or moment.state.path_clear:
            steps.append(Section(SectionName.MOVE_UNITS, place))
            steps.append(Check(PATH_CLEAR, None, place))
        if moment.left and isinstance(step, Drive | Push):
            steps.append(self._rest_of(replace(step, through=moment.left), moment.state))
        key = (moment.left, moment.index if moment.left else -1, moment.state.path_clear, state_key(state))
        if key not in self.of.known:
            self.of.known[key] = self._gone_on(steps, state, before.after, moment)
        return self.of.known[key]

    def _rest_of(self, step: Drive | Push, state: State) -> Drive | Push:
        """The rest of a move, holding those of its controls that are of use still."""
        ready = replace(state, inside=False, path_clear=True, clear_for=None)
        for size in range(len(step.hold), -1, -1):
            for held in combinations(step.hold.items(), size):
                rest = replace(step, hold=dict(held))
                alone = replace(self.of.procedure, steps=(rest,))
                if not simulate(self.of.hold, self.of.unit_types, alone, ready).steps[0].findings:
                    return rest
        return step

    def _power_back(self, state: State, off: Sequence[Step]) -> Iterator[Step]:
        """The power switch set on again, where it was and an interlock does not keep the power off anyway."""
        power = self.of.hold.power
        if power is None or any(state.restraints.get(item) is not how for item, how in power.needs.items()):
            return
        for step in off:
            if isinstance(step, SetControl):
                yield SetControl(step.control, power.on, step.place)

    def _gone_on(self, steps: Sequence[Step], state: State, wanted: State, moment: Moment) -> Answer:
        made = self.of.procedure
        plan = Plan(made.hold, made.operation, made.units, state, tuple(steps), made.aboard, made.put_back)
        composed = compose(plan, self.of.hold, self.of.hazards, self.of.met)
        final = self.of.run(composed.steps, state).final
        if not _leads_back(final, wanted):
            rest = self._but_switched_off(final, made.steps[moment.index + 1 :])
            whole = replace(made, steps=(*steps, *rest))
            findings = simulate(self.of.hold, self.of.unit_types, whole, state).findings
            if findings:
                raise RuntimeError(f"{made.name}: it does not go on: {findings[0].message}")
        return titled(Answer(Outcome.GONE_ON, composed, state, moment.unit))

    def _but_switched_off(self, state: State, rest: Sequence[Step]) -> tuple[Step, ...]:
        """The steps that are left, without the one that sets the power off where it is off already."""
        power = self.of.hold.power
        if power is None or state.controls.get(power.switch) != power.off:
            return tuple(rest)
        done = next(
            (
                index
                for index, step in enumerate(rest)
                if isinstance(step, SetControl) and (step.control, step.position) == (power.switch, power.off)
            ),
            None,
        )
        return tuple(step for index, step in enumerate(rest) if index != done)

    def _no_way_in(self, moment: Moment, state: State) -> Answer:
        """Which unit stands in the doorway, and the step after which it does not."""
        later = next(
            (
                index
                for index in range(moment.index, len(self.of.trace.steps))
                if self.of.trace.steps[index].after.open_doors
                and way_in(self.of.hold, self.of.trace.steps[index].after)
            ),
            None,
        )
        doors = {name for name, bay in self.of.hold.bays.items() if bay.door in state.open_doors}
        standing = [
            bay
            for bay in state.units.values()
            if bay in self.of.hold.bays and not doors.isdisjoint({bay, *self.of.hold.overlapping(bay)})
        ]
        reasons = tuple(
            Reason(
                f"a {'load' if self.of.hold.bays[bay].bulk else 'unit'} stands in {bay}, before the door: "
                "nobody gets in past it",
                self.of.hold.bays[bay].place,
            )
            for bay in standing
        )
        key = ("no way in", later is None, moment.unit, state_key(state))
        if key not in self.of.known:
            safe = (Check(self.of.checks.stopped, None, self.of.hold.place), *self.of.power(state, on=False))
            outside = replace(state, inside=False)
            self.of.known[key] = self.of.call(safe, outside, moment.unit, reasons)
        answer = self.of.known[key]
        return answer if later is None else titled(replace(answer, outcome=Outcome.LATER, until=later))


def _leads_back(final: State, wanted: State) -> bool:
    """Whether the hold stands as the procedure wants it, with nobody inside who would not be there."""
    same = replace(
        final,
        inside=wanted.inside,
        path_clear=wanted.path_clear,
        clear_for=wanted.clear_for,
        checks=wanted.checks,
    )
    return same == wanted and final.inside <= wanted.inside and final.path_clear >= wanted.path_clear
