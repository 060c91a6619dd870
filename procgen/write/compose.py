"""Put warnings, required checks and reports into a plan, by matching."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence

from procgen.model.hazard import Frequency, Hazard, HazardList, RequiredCheck, Scope
from procgen.model.hold import Hold
from procgen.model.step import Check, Open, Procedure, Report, Section, Step, Warn
from procgen.model.words import Operation, SectionName
from procgen.results.plan import Plan
from procgen.write.cycles import cycles
from procgen.write.matching import comes_with, condition, kind, matches, stand, unit_of, verb

Inserts = Mapping[int, Sequence[Step]]
"""Steps to put in before the step at an index."""


def compose(plan: Plan, hold: Hold, hazards: HazardList, still_met: Sequence[Hazard] = ()) -> Procedure:
    """The procedure that people work by: the plan's steps with everything the hazard list asks for.

    A section before-you-start comes first, with the warnings for the whole procedure and every check
    that can be made there. A check that must come after other steps stands as soon as it can be made in
    the section of the step that needs it. A check for each unit stands at the head of that unit's steps
    (loading: right before the unit is presented). Warnings of a section stand right behind its head,
    warnings of a step right before it, reports at the end. Order within one place: the hazard list's.
    Where the plan goes on from a procedure that was broken off, `still_met` are the hazards met in that: a
    check that is due before every step of a kind is due for those too.
    """
    composing = _Composing(plan.steps, hold, plan.operation, tuple(hazards.hazards.values()), still_met)
    steps = composing.steps()
    return Procedure(
        name=f"{hold.name}-{plan.operation}",
        hold=hold.name,
        operation=plan.operation,
        units=plan.units,
        steps=steps,
        aboard=plan.aboard,
        put_back=tuple(name for name in plan.put_back if name in plan.aboard),
        title=f"{hold.title}: {plan.operation}",
        generated=True,
        jammed=tuple(sorted(plan.start.jammed)),
    )


def met(
    steps: Iterable[Step], hold: Hold, operation: Operation, hazards: Iterable[Hazard]
) -> tuple[Hazard, ...]:
    """The hazards that come with any of these steps; some only where several doors are opened."""
    steps = tuple(steps)
    doors = {step.target for step in steps if isinstance(step, Open) and step.target in hold.doors}
    kinds = {(verb(step), kind(step, hold), stand(step, hold), condition(step)): step for step in steps}
    return tuple(
        hazard
        for hazard in hazards
        if (len(doors) > 1 or not hazard.several_doors)
        and any(comes_with(hazard, step, hold, operation) for step in kinds.values())
    )


class _Composing:
    """One plan being filled; the hazards that come with any of its steps."""

    def __init__(
        self,
        steps: Sequence[Step],
        hold: Hold,
        operation: Operation,
        hazards: Sequence[Hazard],
        still_met: Sequence[Hazard],
    ) -> None:
        self.planned = steps
        self.hold = hold
        self.operation = operation
        self.hazards = met(steps, hold, operation, hazards)
        self.still_met = [hazard for hazard in still_met if hazard not in self.hazards]
        self.sections = self._section_starts()

    def steps(self) -> tuple[Step, ...]:
        """The planned steps and everything put in."""
        checks, first = self._checks()
        result: list[Step] = [Section(SectionName.BEFORE_YOU_START)]
        result += [_warn(hazard) for hazard in self.hazards if hazard.scope is Scope.PROCEDURE]
        result += first
        for index, step in enumerate(self.planned):
            if isinstance(step, Section):
                # What is put in before a section's head belongs behind the steps of the one before.
                result += checks.get(index, ())
                result.append(step)
                result += self._section_warnings(index)
            else:
                result += checks.get(index, ())
                result += self._step_warnings(step)
                result.append(step)
        result += checks.get(len(self.planned), ())
        result += self._reports()
        return tuple(result)

    def _section_starts(self) -> list[int]:
        """Where the sections begin; steps before the first head count as one."""
        heads = [index for index, step in enumerate(self.planned) if isinstance(step, Section)]
        return heads if heads[:1] == [0] else [0, *heads]

    def _section_of(self, index: int) -> tuple[int, int]:
        """The stretch of the section that the step at `index` belongs to, its head left out."""
        start = max(start for start in self.sections if start <= index)
        end = min((start for start in self.sections if start > index), default=len(self.planned))
        head = isinstance(self.planned[start], Section)
        return (start + 1 if head else start), end

    def _section_warnings(self, head: int) -> Iterator[Step]:
        start, end = self._section_of(head)
        section = self.planned[start:end]
        for hazard in self.hazards:
            if hazard.scope is Scope.SECTION and any(self._comes_with(hazard, step) for step in section):
                yield _warn(hazard)

    def _step_warnings(self, step: Step) -> Iterator[Step]:
        for hazard in self.hazards:
            if hazard.scope is Scope.STEP and self._comes_with(hazard, step):
                yield _warn(hazard)

    def _comes_with(self, hazard: Hazard, step: Step) -> bool:
        return comes_with(hazard, step, self.hold, self.operation)

    def _checks(self) -> tuple[Inserts, Sequence[Step]]:
        """Checks by the index they stand before, and those that stand in before-you-start."""
        inserts: dict[int, list[Step]] = defaultdict(list)
        first: list[Step] = []
        for required in (required for hazard in self.still_met for required in hazard.checks):
            if required.frequency is Frequency.EACH_STEP:
                self._before_each(required, inserts)
        for hazard in self.hazards:
            for required in hazard.checks:
                if required.frequency is Frequency.EACH_UNIT:
                    for index, unit in self._unit_heads(required):
                        _add(inserts[index], Check(required.condition, unit, required.place))
                    continue
                before = self._indexes(required)
                if required.frequency is Frequency.EACH_STEP:
                    self._before_each(required, inserts)
                    continue
                if not before or self._made(required, before[0]):
                    continue
                check = Check(required.condition, None, required.place)
                if required.after is None:
                    _add(first, check)
                else:
                    _add(inserts[self._earliest(required, before[0])], check)
        return inserts, first

    def _before_each(self, required: RequiredCheck, inserts: dict[int, list[Step]]) -> None:
        for index in self._indexes(required):
            _add(inserts[index], Check(required.condition, None, required.place))

    def _indexes(self, required: RequiredCheck) -> list[int]:
        return [
            index
            for index, step in enumerate(self.planned)
            if matches(required.before, step, self.hold, self.operation)
        ]

    def _made(self, required: RequiredCheck, needed_at: int) -> bool:
        """Whether the plan itself makes this check in time."""
        waits = max((index for index in self._after(required) if index < needed_at), default=-1)
        return any(
            isinstance(step, Check) and step.condition == required.condition
            for step in self.planned[waits + 1 : needed_at]
        )

    def _after(self, required: RequiredCheck) -> list[int]:
        return [
            index
            for index, step in enumerate(self.planned)
            if required.after is not None and matches(required.after, step, self.hold, self.operation)
        ]

    def _earliest(self, required: RequiredCheck, needed_at: int) -> int:
        """Where a check stands that must come after other steps: as soon as it can, in the same block."""
        after = [index for index in self._after(required) if index < needed_at]
        start, end = self._section_of(needed_at)
        blocks = (c.start for c in cycles(self.planned, start, end) if c.start <= needed_at < c.end)
        start = next(blocks, start)
        if not after:
            return needed_at
        return max(start, after[-1] + 1)

    def _unit_heads(self, required: RequiredCheck) -> Iterator[tuple[int, str]]:
        """Each unit with such a step, and where the check for it stands."""
        seen: set[str] = set()
        for index in self._indexes(required):
            unit = unit_of(self.planned[index])
            if not unit or unit in seen:
                continue
            seen.add(unit)
            if self.operation is Operation.LOADING:
                yield index, unit
                continue
            start, end = self._section_of(index)
            heads = (c for c in cycles(self.planned, start, end) if c.start <= index < c.end)
            yield next(heads).start, unit

    def _reports(self) -> Iterator[Step]:
        said: set[str] = set()
        for hazard in self.hazards:
            for report in hazard.reports:
                if report not in said:
                    said.add(report)
                    yield Report(report, hazard.place)


def _warn(hazard: Hazard) -> Warn:
    return Warn(str(hazard.signal), hazard.name, hazard.place)


def _add(steps: list[Step], check: Check) -> None:
    """Add a check once, however many hazards ask for it in the same place."""
    if check not in steps:
        steps.append(check)
