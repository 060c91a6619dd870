"""Ask for plans in tests, and look at them: short words for what the claims speak of."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from procgen.diagnostics import Finding
from procgen.model.hold import Hold
from procgen.model.step import Drive, PlannedUnit, Procedure, Push, Section, Step
from procgen.model.unit import UnitType
from procgen.model.words import Operation, RestraintState, SectionName
from procgen.plan import choose_units, plan
from procgen.results.plan import NoPlan, Plan, Reason
from procgen.results.state import State, state_at_rest
from procgen.simulate import simulate

UnitTypes = Mapping[str, UnitType]


def rest(
    hold: Hold,
    operation: Operation,
    units: Mapping[str, PlannedUnit],
    aboard: Mapping[str, PlannedUnit] | None = None,
) -> State:
    """The hold closed, with what is aboard before this operation."""
    inside = [*(aboard or {}).values()]
    if operation is Operation.UNLOADING:
        inside += units.values()
    return state_at_rest(hold, {unit.name: unit.bay for unit in inside})


def attempt(
    hold: Hold,
    types: UnitTypes,
    operation: Operation,
    positions: Sequence[str] | None = None,
    change: Callable[[State], State] = lambda state: state,
) -> Plan | NoPlan:
    """The plan from rest for some positions, with something changed about the start."""
    units = choose_units(hold, types, positions)
    return plan(hold, types, change(rest(hold, operation, units)), operation, units)


def planned(
    hold: Hold, types: UnitTypes, operation: Operation, positions: Sequence[str] | None = None
) -> Plan:
    """A plan that there must be, and that must simulate with no finding."""
    made = attempt(hold, types, operation, positions)
    assert isinstance(made, Plan), made
    assert findings(hold, types, made) == ()
    return made


def refused(
    hold: Hold,
    types: UnitTypes,
    operation: Operation,
    positions: Sequence[str] | None = None,
    change: Callable[[State], State] = lambda state: state,
) -> tuple[Reason, ...]:
    """The reasons why there is no plan; each has a place in the description."""
    made = attempt(hold, types, operation, positions, change)
    assert isinstance(made, NoPlan), made.steps
    assert made.reasons
    assert all(reason.message and reason.place.file for reason in made.reasons)
    return made.reasons


def findings(hold: Hold, types: UnitTypes, made: Plan) -> tuple[Finding, ...]:
    """What the simulator finds wrong with a plan."""
    back = tuple(name for name in made.put_back if name in made.aboard)
    procedure = Procedure(
        "plan", hold.name, made.operation, made.units, made.steps, made.aboard, put_back=back
    )
    return simulate(hold, types, procedure, made.start).findings


def stuck(item: str, state: RestraintState) -> Callable[[State], State]:
    """A start with a restraint out of service."""

    def change(start: State) -> State:
        return replace(start, stuck={item: state}, restraints={**start.restraints, item: state})

    return change


def dead(item: str) -> Callable[[State], State]:
    """A start with a drive, a control or the power out of service."""
    return lambda start: replace(start, dead=frozenset({item}))


def moves(made: Plan) -> list[Drive | Push]:
    """The moves of a plan, in order."""
    return [step for step in made.steps if isinstance(step, Drive | Push)]


def moves_of(made: Plan, unit: str) -> list[Drive | Push]:
    """The moves of one unit."""
    return [move for move in moves(made) if move.unit == unit]


def order(made: Plan) -> list[str]:
    """The units in the order in which they first move."""
    return list(dict.fromkeys(move.unit for move in moves(made)))


def at(made: Plan, step: Step) -> int:
    """Where a step stands in a plan (places in the data do not count); it must stand there once."""
    found = [index for index, each in enumerate(made.steps) if each == step]
    assert len(found) == 1, f"{step} stands {len(found)} times"
    return found[0]


def first_move(made: Plan, unit: str | None = None) -> int:
    """Where the first move stands, of all or of one unit."""
    return next(
        index
        for index, step in enumerate(made.steps)
        if isinstance(step, Drive | Push) and unit in (None, step.unit)
    )


def last_move(made: Plan, unit: str) -> int:
    """Where the last move of a unit stands."""
    return max(
        index for index, step in enumerate(made.steps) if isinstance(step, Drive | Push) and step.unit == unit
    )


def section(made: Plan, name: SectionName) -> list[Step]:
    """The steps of one section."""
    heads = [index for index, step in enumerate(made.steps) if isinstance(step, Section)]
    start = next(index for index in heads if made.steps[index] == Section(name))
    end = next((index for index in heads if index > start), len(made.steps))
    return list(made.steps[start + 1 : end])
