"""Make mutants of a clean procedure: one slip each, of the kinds people make.

Kinds: a step left out; two neighbours swapped; another item, direction, bay, control, state, unit or
person in a step. Replacements are drawn from everything the hold has, so that no slip is favoured.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace

from procgen.model.hold import Hold
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
from procgen.model.words import OUTSIDE, Looker, RestraintState

_OTHER_STATE = {
    RestraintState.RAISED: RestraintState.LOWERED,
    RestraintState.LOWERED: RestraintState.RAISED,
}


@dataclass(frozen=True, slots=True)
class Mutant:
    """A procedure with one slip. `name` tells the slip in words; `step` is where it is, from 1."""

    kind: str
    name: str
    step: int
    procedure: Procedure


def mutants(procedure: Procedure, hold: Hold) -> Iterator[Mutant]:
    """Every mutant of `procedure`, in a fixed order."""
    steps = procedure.steps
    for index, step in enumerate(steps):
        number = index + 1
        yield Mutant(
            "leave out",
            f"leave out step {number} ({label(step)})",
            number,
            replace(procedure, steps=steps[:index] + steps[index + 1 :]),
        )
        if index + 1 < len(steps) and steps[index + 1] != step:
            swapped = (*steps[:index], steps[index + 1], step, *steps[index + 2 :])
            yield Mutant(
                "swap",
                f"swap step {number} ({label(step)}) with step {number + 1} ({label(steps[index + 1])})",
                number,
                replace(procedure, steps=swapped),
            )
        for kind, other in _others(step, procedure, hold):
            yield Mutant(
                kind,
                f"step {number} ({label(step)}) becomes ({label(other)})",
                number,
                replace(procedure, steps=(*steps[:index], other, *steps[index + 1 :])),
            )


def _others(step: Step, procedure: Procedure, hold: Hold) -> Iterator[tuple[str, Step]]:
    match step:
        case Raise() | Lower() | Fit() | Remove():
            yield from (("item", replace(step, item=name)) for name in hold.restraints if name != step.item)
            yield "state", _opposite(step)
        case Open() | Close():
            targets = [*hold.doors, *hold.panels]
            yield from (("item", replace(step, target=name)) for name in targets if name != step.target)
            opposite = Close if isinstance(step, Open) else Open
            yield "state", opposite(step.target, step.place)
        case SetControl():
            yield from _other_settings(step, hold)
        case Present():
            yield from (("unit", replace(step, unit=name)) for name in procedure.units if name != step.unit)
            if len(hold.doors) > 1:
                doors = (None, *hold.doors)
                yield from (("door", replace(step, door=door)) for door in doors if door != step.door)
        case Drive():
            yield from _other_moves(step, procedure, hold)
        case Push():
            yield from _other_moves(step, procedure, hold)
            yield "crew", replace(step, crew=step.crew - 1)
        case Stow():
            yield from _other_ways(step, procedure, hold)
            yield "crew", replace(step, crew=step.crew - 1)
            yield "verb", Push(step.unit, step.crew, step.through, {}, step.place)
        case Check(unit=str()):
            yield from (("unit", replace(step, unit=name)) for name in procedure.units if name != step.unit)
        case CheckItems():
            yield "state", replace(step, state=_OTHER_STATE[step.state])
        case CheckLatch():
            yield from (("item", replace(step, door=name)) for name in hold.doors if name != step.door)
            yield from (("person", replace(step, by=other)) for other in Looker if other is not step.by)
        case _:
            return


def _opposite(step: Raise | Lower | Fit | Remove) -> Step:
    turned: Mapping[type, Callable[..., Step]] = {Raise: Lower, Lower: Raise, Fit: Remove, Remove: Fit}
    return turned[type(step)](step.item, step.place)


def _other_settings(step: SetControl, hold: Hold) -> Iterator[tuple[str, Step]]:
    for name, control in hold.controls.items():
        for position in control.positions:
            if (name, position) != (step.control, step.position):
                kind = "direction" if name == step.control else "control"
                yield kind, replace(step, control=name, position=position)


def _other_moves(step: Drive | Push, procedure: Procedure, hold: Hold) -> Iterator[tuple[str, Step]]:
    for control, position in step.hold.items():
        rest = {name: where for name, where in step.hold.items() if name != control}
        yield "control", replace(step, hold=rest)
        for name, other in hold.controls.items():
            for where in other.positions:
                if name in rest or (name, where) == (control, position):
                    continue
                kind = "direction" if name == control else "control"
                yield kind, replace(step, hold={**rest, name: where})
    yield from _other_ways(step, procedure, hold)


def _other_ways(step: Drive | Push | Stow, procedure: Procedure, hold: Hold) -> Iterator[tuple[str, Step]]:
    for index, bay in enumerate(step.through):
        for name in (OUTSIDE, *hold.bays):
            if name != bay:
                through = (*step.through[:index], name, *step.through[index + 1 :])
                yield "bay", replace(step, through=through)
    if len(step.through) > 2:
        yield "bay", replace(step, through=step.through[:-1])
    for name in procedure.units:
        if name != step.unit:
            yield "unit", replace(step, unit=name)


def label(step: Step) -> str:
    """A step in a few words, for the name of a mutant."""
    match step:
        case Section():
            return f"section {step.name}"
        case Warn():
            return f"{step.signal} {step.hazard}"
        case Open() | Close():
            return f"{type(step).__name__.lower()} {step.target}"
        case Raise() | Lower() | Fit() | Remove():
            return f"{type(step).__name__.lower()} {step.item}"
        case SetControl():
            return f"set {step.control} {step.position}"
        case Present():
            return f"present {step.unit}" + (f" at {step.door}" if step.door else "")
        case Drive() | Push():
            held = ", ".join(f"{name} {where}" for name, where in step.hold.items())
            crew = f" by {step.crew}" if isinstance(step, Push) else ""
            gear = f" with {step.gear}" if isinstance(step, Push) and step.gear is not None else ""
            way = " ".join(step.through)
            return f"{type(step).__name__.lower()} {step.unit}{crew}{gear} [{held}] {way}"
        case Stow():
            return f"stow {step.unit} by {step.crew} {' '.join(step.through)}"
        case Check():
            return f"check {step.condition}" + (f" {step.unit}" if step.unit else "")
        case CheckItems():
            return f"check {step.state} {' '.join(step.items)}"
        case CheckLatch():
            return f"check latched {step.door} by {step.by}"
        case Report():
            return f"report {step.what}"
        case Note():
            return "note"
