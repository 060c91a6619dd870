"""Which steps a match of the hazard list means."""

from __future__ import annotations

from procgen.model.hazard import Hazard, Match
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
from procgen.model.words import Operation, Stand

_VERBS: dict[type[Step], str] = {
    Open: "open",
    Close: "close",
    SetControl: "set",
    Raise: "raise",
    Lower: "lower",
    Fit: "fit",
    Remove: "remove",
    Present: "present",
    Drive: "drive",
    Push: "push",
    Stow: "stow",
    Check: "check",
    CheckItems: "check",
    CheckLatch: "check",
    Report: "report",
    Note: "note",
}


def verb(step: Step) -> str:
    """The verb of the step form; empty for what is no action (a section head, a warning).

    A push with gear is a pull.
    """
    if isinstance(step, Push) and step.gear is not None:
        return "pull"
    return _VERBS.get(type(step), "")


def is_action(step: Step) -> bool:
    """Whether somebody does something in this step (a note counts: it is read in its turn)."""
    return not isinstance(step, (Section, Warn))


def handled(step: Step) -> str:
    """The name of what a hand action works on: door, panel, control or restraint; empty for other steps."""
    match step:
        case Open(target) | Close(target):
            return target
        case SetControl(control, _):
            return control
        case Raise(item) | Lower(item) | Fit(item) | Remove(item):
            return item
        case _:
            return ""


def kind(step: Step, hold: Hold) -> str:
    """What the object of a hand action is: a kind of restraint or control, `door` or `panel`.

    A unit that is brought to one of several doors, by its name, is brought to a `door`; the look at a latch
    is a look at a `door`.
    """
    name = handled(step)
    if isinstance(step, (Open, Close)):
        return "door" if name in hold.doors else "panel" if name in hold.panels else ""
    if isinstance(step, CheckLatch):
        return "door" if step.door in hold.doors else ""
    if isinstance(step, Present):
        return "door" if step.door and len(hold.doors) > 1 else ""
    if isinstance(step, SetControl):
        return str(hold.controls[name].kind) if name in hold.controls else ""
    return str(hold.restraints[name].kind) if name in hold.restraints else ""


def stand(step: Step, hold: Hold) -> Stand | None:
    """Where the person stands who does a hand action; None for other steps and unknown items."""
    name = handled(step)
    if isinstance(step, (Open, Close)):
        if name in hold.doors:
            return Stand.OUTSIDE
        return hold.panels[name].at if name in hold.panels else None
    if isinstance(step, SetControl):
        return hold.controls[name].at if name in hold.controls else None
    return hold.restraints[name].reached_from if name in hold.restraints else None


def unit_of(step: Step) -> str:
    """The unit that a step is about; empty for other steps."""
    match step:
        case Present(unit) | Drive(unit) | Push(unit) | Stow(unit):
            return unit
        case Check(_, unit):
            return unit or ""
        case _:
            return ""


def condition(step: Step) -> str:
    """The name of a check; empty for other steps."""
    return step.condition if isinstance(step, Check) else ""


def matches(match: Match, step: Step, hold: Hold, operation: Operation) -> bool:
    """Whether `match` means this step: every set it gives must fit, an empty one fits all."""
    return (
        verb(step) in match.verbs
        and (not match.operations or operation in match.operations)
        and (not match.kinds or kind(step, hold) in match.kinds)
        and (not match.reached_from or stand(step, hold) in match.reached_from)
        and (not match.conditions or condition(step) in match.conditions)
    )


def comes_with(hazard: Hazard, step: Step, hold: Hold, operation: Operation) -> bool:
    """Whether a hazard comes with this step."""
    return any(matches(match, step, hold, operation) for match in hazard.comes_with)
