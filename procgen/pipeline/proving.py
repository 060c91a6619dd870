"""Plans that are proven by simulation before anybody sees them, made once for each question."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.step import OutOfService, PlannedUnit
from procgen.model.words import Operation
from procgen.plan import choose_units, plan
from procgen.report import procedure_of
from procgen.results.out_of_service import failed, without
from procgen.results.plan import NoPlan, Plan, Reason
from procgen.results.state import State, state_at_rest
from procgen.results.trace import Trace
from procgen.simulate import simulate


@dataclass(frozen=True, slots=True)
class Job:
    """What is asked: the operation, the positions to load or unload, those whose units stay aboard."""

    operation: Operation
    positions: tuple[str, ...]
    staying: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Proven:
    """A plan and the trace that proves it; or why there is none."""

    plan: Plan | NoPlan
    trace: Trace | None = None

    @property
    def reasons(self) -> tuple[Reason, ...]:
        """Why there is no plan; none where there is one."""
        return self.plan.reasons if isinstance(self.plan, NoPlan) else ()


@dataclass(slots=True)
class Prover:
    """Plans for one hold, each question answered once. `made` counts the plans that were simulated."""

    network: Network
    hold: Hold
    made: int = 0
    _asked: dict[object, Proven] = field(default_factory=dict)
    _known: dict[object, Proven] = field(default_factory=dict)
    _lefts: dict[object, Hold] = field(default_factory=dict)
    _units: dict[str, PlannedUnit] = field(default_factory=dict)

    def units(self, positions: Sequence[str]) -> Mapping[str, PlannedUnit]:
        """The unit that is taken for each position."""
        for position in positions:
            if position not in self._units:
                (unit,) = choose_units(self.hold, self.network.unit_types, [position]).values()
                self._units[position] = unit
        return {unit.name: unit for unit in (self._units[position] for position in positions)}

    def prove(self, job: Job, out: Sequence[OutOfService] = ()) -> Proven:
        """The plan for a job with items out of service, simulated; none where the simulator objects."""
        asked = (job, tuple((one.item, one.failure) for one in out))
        if asked not in self._asked:
            self._asked[asked] = self._known_or_new(job, out)
        return self._asked[asked]

    def _known_or_new(self, job: Job, out: Sequence[OutOfService]) -> Proven:
        """What was proven of a hold that is left the same by whatever is out of service; else a new proof."""
        left = self._left(out)
        start = self._start(job, left, out)
        held = tuple((name, position.held_by) for name, position in left.positions.items() if out)
        key = (job, tuple(start.stuck.items()), start.dead, held)
        if key not in self._known:
            self._known[key] = self._prove(job, out, left, start)
        return self._known[key]

    def _left(self, out: Sequence[OutOfService]) -> Hold:
        key = tuple((one.item, one.failure) for one in out)
        if key not in self._lefts:
            self._lefts[key] = without(self.hold, out)
        return self._lefts[key]

    def _start(self, job: Job, left: Hold, out: Sequence[OutOfService]) -> State:
        inside = job.staying if job.operation is Operation.LOADING else (*job.positions, *job.staying)
        aboard = {name: unit.bay for name, unit in self.units(inside).items()}
        return failed(self.hold, state_at_rest(left, aboard), out)

    def _prove(self, job: Job, out: Sequence[OutOfService], left: Hold, start: State) -> Proven:
        units, staying = self.units(job.positions), self.units(job.staying)
        made = plan(left, self.network.unit_types, start, job.operation, units, staying)
        if isinstance(made, NoPlan):
            return Proven(made)
        trace = self.simulated(made, out)
        if trace.findings:
            finding = trace.findings[0]
            why = Reason(f"no steps could be proven: {finding.message}", self.hold.place)
            return Proven(NoPlan(self.hold.name, job.operation, (why,)))
        return Proven(made, trace)

    def simulated(self, made: Plan, out: Sequence[OutOfService]) -> Trace:
        """The trace of a plan's steps with items out of service."""
        self.made += 1
        procedure = replace(procedure_of(made), out_of_service=tuple(out))
        return simulate(self.hold, self.network.unit_types, procedure)
