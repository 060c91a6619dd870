"""The out-of-service matrix: every item dead in turn, every position planned and reckoned anew.

No cell is typed by hand: each is a plan that the simulator has found nothing wrong with, or the reasons
why there is none, and the limits that are left.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field, replace
from functools import lru_cache

from procgen.limits.missing import left_cell
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.step import OutOfService, Procedure
from procgen.model.words import Failure, Operation
from procgen.pipeline.checking import check_procedure, put_out_of_service
from procgen.pipeline.failing import gone, not_held
from procgen.pipeline.proving import Job, Prover
from procgen.pipeline.unmoved import crew_of, differences, share, unmoved
from procgen.results.matrix import Matrix, MatrixCell, MatrixRow, Outcome
from procgen.results.missing import MissingCell
from procgen.results.out_of_service import failure_words, possible_failures, without
from procgen.results.plan import NoPlan, Plan
from procgen.write import compose

_HALVES = 2
_LARGE = 300
"""How many cells a matrix must have, by rows and positions, for a second process to be worth its start."""


def matrix(network: Network, hold: Hold) -> Matrix:
    """The matrix of a hold; the same network and hold are reckoned once."""
    return _matrix(_Same(network, hold))


@dataclass(frozen=True, slots=True, eq=False)
class _Key:
    network: Network
    hold: Hold


class _Same(_Key):
    """A network and a hold, equal where they are the very same records."""

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and self.network is other.network and self.hold is other.hold

    def __hash__(self) -> int:
        return hash((id(self.network), id(self.hold)))


@lru_cache(maxsize=64)
def _matrix(key: _Same) -> Matrix:
    """All rows, in two halves: large ones each in a process of its own, with the same outcome."""
    out = all_failures(key.hold)
    halves = [(key.network, key.hold, part) for part in (out[::2], out[1::2])]
    if len(out) * len(key.hold.positions) < _LARGE or (os.cpu_count() or 1) < _HALVES:
        made = [matrix_of(*half) for half in halves]
    else:
        with ProcessPoolExecutor(max_workers=_HALVES) as pool:
            made = list(pool.map(matrix_of, *zip(*halves, strict=True)))
    return merged(made, out)


def merged(parts: Sequence[Matrix], out: Sequence[OutOfService]) -> Matrix:
    """One matrix of the rows of several, in the order of `out`; procedures that are alike are one."""
    rows = {row.out: (row, part.procedures) for part in parts for row in part.rows}
    procedures: dict[str, Procedure] = {}
    names: dict[object, str] = {}

    def known(name: str, made: Mapping[str, Procedure]) -> str:
        if not name:
            return ""
        one = made[name]
        alike = (one.operation, str(one.units), str(one.aboard), one.put_back, str(one.steps))
        if alike not in names:
            names[alike] = name
            procedures[name] = one
        return names[alike]

    found = tuple(
        replace(
            row,
            cells=tuple(replace(cell, procedure=known(cell.procedure, made)) for cell in row.cells),
        )
        for row, made in (rows[one] for one in out)
    )
    return Matrix(parts[0].hold, found, procedures, sum(part.plans for part in parts))


def all_failures(hold: Hold) -> tuple[OutOfService, ...]:
    """Every single item of a hold out of service in every way in which it can be."""
    return tuple(
        OutOfService(item, failure)
        for item, failures in possible_failures(hold).items()
        for failure in failures
    )


def matrix_of(network: Network, hold: Hold, out: Sequence[OutOfService]) -> Matrix:
    """The rows for some items out of service, one at a time."""
    making = _Making(Prover(network, hold), _full_loads(hold))
    rows = tuple(MatrixRow(one, failure_words(hold, one), making.cells(one)) for one in out)
    return Matrix(hold.name, rows, making.procedures, making.prover.made)


@dataclass(slots=True)
class _Making:
    """A matrix in the making, with the procedures found so far.

    `groups` has for each position the fullest load of the hold that it can be part of.
    """

    prover: Prover
    groups: Mapping[str, tuple[str, ...]]
    procedures: dict[str, Procedure] = field(default_factory=dict)
    _names: dict[object, str] = field(default_factory=dict)
    _of_jobs: dict[tuple[str, Failure, Job], str] = field(default_factory=dict)
    _same: dict[tuple[str, Failure, Job], bool] = field(default_factory=dict)

    @property
    def hold(self) -> Hold:
        return self.prover.hold

    def cells(self, one: OutOfService) -> tuple[MatrixCell, ...]:
        """A row: every position, loading before unloading."""
        return tuple(cell for operation in Operation for cell in self._cells(one, operation))

    def _cells(self, one: OutOfService, operation: Operation) -> Iterator[MatrixCell]:
        alone = {name: self._alone(one, operation, name) for name in self.hold.positions}
        workable = {name for name, outcome in alone.items() if outcome.workable}
        loads = {group: self._fullest(one, operation, group, workable) for group in set(self.groups.values())}
        for name, group in self.groups.items():
            job = loads[group]
            together = self._together(one, job, name, alone[name])
            yield MatrixCell(
                position=name,
                operation=operation,
                alone=alone[name],
                together=together,
                limits=self._limits(one, name) if operation is Operation.LOADING else (),
                procedure=self._procedure(one, job, name, alone[name]),
            )

    def _alone(self, one: OutOfService, operation: Operation, name: str) -> Outcome:
        if operation is Operation.LOADING:
            units = self.prover.units([name]).values()
            reasons = not_held(self.hold, self.prover.network.unit_types, units, [one])
            if reasons:
                return Outcome((name,), reasons=reasons)
        return self._outcome(one, Job(operation, (name,)), name)

    def _outcome(self, one: OutOfService, job: Job, name: str) -> Outcome:
        """What comes of working one position as part of a job."""
        before = self.prover.prove(job)
        if self._as_before(one, job):
            return Outcome(job.positions, reasons=before.reasons)
        after = self.prover.prove(job, [one])
        if isinstance(after.plan, NoPlan):
            return Outcome(job.positions, reasons=after.plan.reasons)
        unit = next(iter(self.prover.units([name])))
        own = share(before.plan.steps, unit) if isinstance(before.plan, Plan) else ()
        left_out, put_in = differences(own, share(after.plan.steps, unit))
        return Outcome(job.positions, left_out, put_in, crew_of(put_in, unit))

    def _as_before(self, one: OutOfService, job: Job) -> bool:
        """Whether the steps of a hold in order do as well with the item out of service."""
        key = (one.item, one.failure, job)
        if key not in self._same:
            self._same[key] = self._simulates(one, job)
        return self._same[key]

    def _simulates(self, one: OutOfService, job: Job) -> bool:
        before = self.prover.prove(job)
        if isinstance(before.plan, NoPlan) or before.trace is None:
            return isinstance(before.plan, NoPlan)
        if unmoved(self.hold, before.trace, one):
            return True
        return not self.prover.simulated(before.plan, [one]).findings

    def _fullest(
        self, one: OutOfService, operation: Operation, group: Sequence[str], workable: set[str]
    ) -> Job:
        """As much of a group of positions as can still be worked in one go."""
        taken = tuple(name for name in group if name in workable)
        job = self._job(operation, group, taken)
        if not taken or self._as_before(one, job) or not self.prover.prove(job, [one]).reasons:
            return job
        grown, left = self._job(operation, group, ()), list(taken)
        while left:
            wider = ((name, self._with(grown, group, name)) for name in left)
            found = next((pair for pair in wider if not self.prover.prove(pair[1], [one]).reasons), None)
            if found is None:
                break
            left.remove(found[0])
            grown = found[1]
        return grown

    def _with(self, job: Job, group: Sequence[str], name: str) -> Job:
        """A job with one more of the group's positions."""
        return self._job(job.operation, group, tuple(n for n in group if n in {*job.positions, name}))

    @staticmethod
    def _job(operation: Operation, group: Sequence[str], taken: tuple[str, ...]) -> Job:
        """Whatever of a group is not brought out stays aboard."""
        stays = operation is Operation.UNLOADING
        return Job(operation, taken, tuple(name for name in group if stays and name not in taken))

    def _together(self, one: OutOfService, job: Job, name: str, alone: Outcome) -> Outcome:
        if not alone.workable:
            return Outcome(job.positions, reasons=alone.reasons)
        if name in job.positions:
            return self._outcome(one, job, name)
        more = self._with(job, self.groups[name], name)
        return Outcome(job.positions, reasons=self.prover.prove(more, [one]).reasons)

    def _limits(self, one: OutOfService, name: str) -> tuple[MissingCell, ...]:
        position = self.hold.positions[name]
        if not set(gone([one])).intersection(position.held_by):
            return ()
        cells = (
            left_cell(self.hold, position, unit_type, gone([one]))
            for unit_type in self.prover.network.unit_types.values()
        )
        changed = (cell for cell in cells if cell.whole.governing is not None)
        return tuple(cell for cell in changed if cell.lowered or not cell.usable)

    def _procedure(self, one: OutOfService, job: Job, name: str, alone: Outcome) -> str:
        """The procedure that works a position: with others, or alone where only that can be done."""
        if alone.workable and name not in job.positions:
            job = Job(job.operation, (name,))
        key = (one.item, one.failure, job)
        if key not in self._of_jobs:
            self._of_jobs[key] = self._named(one, job)
        return self._of_jobs[key]

    def _named(self, one: OutOfService, job: Job) -> str:
        """The name of a job's procedure; two that are word for word the same are one."""
        if not job.positions or (not job.staying and self._is_whole(job) and self._as_before(one, job)):
            return ""
        made = self.prover.prove(job, [one])
        if isinstance(made.plan, NoPlan):
            return ""
        steps = compose(made.plan, without(self.hold, [one]), self.prover.network.hazards)
        told = put_out_of_service(steps, self.hold, [one])
        key = (job, str(told.steps))
        if key not in self._names:
            self._names[key] = self._publish(told, job)
        return self._names[key]

    def _is_whole(self, job: Job) -> bool:
        return job.positions in set(self.groups.values())

    def _publish(self, procedure: Procedure, job: Job) -> str:
        found = check_procedure(self.prover.network, self.hold, procedure).findings
        if found:
            raise RuntimeError(f"{procedure.name} was derived and is not clean: {found[0].message}")
        alone = f"-{job.positions[0]}-alone" if len(job.positions) == 1 < len(self.hold.positions) else ""
        name = procedure.name + alone
        self.procedures[name] = procedure
        return name


def _full_loads(hold: Hold) -> Mapping[str, tuple[str, ...]]:
    """For each position a load of the hold as full as can be that it is part of; few different ones.

    The first takes the positions in the order of the description; each further one those that no load
    before it could take, because they share floor with others, and whatever goes beside them.
    """
    loads: dict[str, tuple[str, ...]] = {}
    for name in hold.positions:
        if name in loads:
            continue
        taken = [name]
        for other in sorted(hold.positions, key=lambda other: other in loads):
            if other not in taken and not hold.overlapping(other).intersection(taken):
                taken.append(other)
        load = tuple(other for other in hold.positions if other in taken)
        loads |= {other: load for other in load if other not in loads}
    return loads
