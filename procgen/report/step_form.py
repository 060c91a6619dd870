"""A procedure as plain data in the step form: what a hand-written procedure file holds."""

from __future__ import annotations

from collections.abc import Mapping

from procgen.model.effectivity import Effectivity
from procgen.model.step import (
    Check,
    CheckItems,
    CheckLatch,
    Close,
    Drive,
    Fit,
    Lower,
    Note,
    Open,
    PlannedUnit,
    Present,
    Procedure,
    Push,
    Raise,
    Remove,
    Report,
    Section,
    SetControl,
    Step,
    Stow,
    Warn,
)
from procgen.results.plan import Plan

Form = str | int | bool | list["Form"] | dict[str, "Form"]
"""Plain data as YAML and JSON hold it."""

_SIGNAL_KEYS = {"note": "notice"}
"""Signal words that are written under another key, because `note` is a remark in words."""


def procedure_of(plan: Plan) -> Procedure:
    """A plan as a procedure, named after its hold and operation."""
    return Procedure(
        name=f"{plan.hold}-{plan.operation}",
        hold=plan.hold,
        operation=plan.operation,
        units=plan.units,
        steps=plan.steps,
        aboard=plan.aboard,
        put_back=tuple(name for name in plan.put_back if name in plan.aboard),
        generated=True,
        jammed=tuple(sorted(plan.start.jammed)),
    )


def procedure_data(procedure: Procedure | Plan) -> dict[str, Form]:
    """A procedure or plan in the step form; reading it back gives the same procedure.

    Keys stand in the order of a hand-written file; `title`, `aboard`, `put-back`, `out-of-service`,
    `jammed` and `effectivity` only where there is something to say.
    """
    if isinstance(procedure, Plan):
        procedure = procedure_of(procedure)
    data: dict[str, Form] = {"procedure": procedure.name}
    if procedure.title not in ("", procedure.name):
        data["title"] = procedure.title
    data["hold"] = procedure.hold
    data["operation"] = str(procedure.operation)
    data["units"] = _units(procedure.units)
    if procedure.aboard:
        data["aboard"] = _units(procedure.aboard)
    if procedure.put_back:
        data["put-back"] = list(procedure.put_back)
    if procedure.out_of_service:
        data["out-of-service"] = {one.item: str(one.failure) for one in procedure.out_of_service}
    if procedure.jammed:
        data["jammed"] = list(procedure.jammed)
    if procedure.effectivity is not None:
        data["effectivity"] = _effectivity(procedure.effectivity)
    data["steps"] = [step_data(step) for step in procedure.steps]
    return data


def _effectivity(stated: Effectivity) -> dict[str, Form]:
    named = {"configurations": stated.configurations, "registrations": stated.registrations}
    return {key: list(names) for key, names in named.items() if names}


def step_data(step: Step) -> dict[str, Form]:
    """One step as a mapping with its verb as the only key."""
    match step:
        case Section(name=name):
            return {"section": str(name)}
        case Warn(signal=signal, hazard=hazard):
            return {_SIGNAL_KEYS.get(signal, signal): hazard}
        case Open(target=target):
            return {"open": target}
        case Close(target=target):
            return {"close": target}
        case SetControl(control=control, position=position):
            return {"set": {control: position}}
        case Present(unit=unit, door=door):
            return {"present": unit if door is None else {"unit": unit, "door": door}}
        case Report(what=what):
            return {"report": what}
        case Note(text=text):
            return {"note": text}
        case Drive() | Push():
            return _move(step)
        case Stow(unit=unit, crew=crew, through=through):
            return {"stow": {"unit": unit, "crew": crew, "through": list(through)}}
        case Check() | CheckItems() | CheckLatch():
            return _check(step)
        case Raise(item=item) | Lower(item=item) | Fit(item=item) | Remove(item=item):
            return {type(step).__name__.lower(): item}


def _move(step: Drive | Push) -> dict[str, Form]:
    held: dict[str, Form] = dict(step.hold)
    through: list[Form] = list(step.through)
    if isinstance(step, Drive):
        return {"drive": {"unit": step.unit, "hold": held, "through": through}}
    gear: dict[str, Form] = {} if step.gear is None else {"with": step.gear}
    move: dict[str, Form] = {"unit": step.unit, "crew": step.crew, **gear, "through": through}
    if held:
        move["hold"] = held
    return {"push" if step.gear is None else "pull": move}


def _check(step: Check | CheckItems | CheckLatch) -> dict[str, Form]:
    if isinstance(step, CheckItems):
        items: list[Form] = list(step.items)
        return {"check": {str(step.state): items}}
    if isinstance(step, CheckLatch):
        return {"check": {"latched": step.door, "by": str(step.by)}}
    if step.unit is None:
        return {"check": step.condition}
    return {"check": {"condition": step.condition, "unit": step.unit}}


def _units(units: Mapping[str, PlannedUnit]) -> dict[str, Form]:
    return {name: {"type": unit.unit_type, "bay": unit.bay} for name, unit in units.items()}
