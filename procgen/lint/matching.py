"""Which steps a hazard comes with: the hazard list's matching, as the check reads it."""

from __future__ import annotations

from dataclasses import dataclass

from procgen.model import step as steps
from procgen.model.hazard import Match
from procgen.model.hold import Hold
from procgen.model.step import Procedure, Step

_VERBS: dict[type[object], str] = {
    steps.Open: "open",
    steps.Close: "close",
    steps.SetControl: "set",
    steps.Raise: "raise",
    steps.Lower: "lower",
    steps.Fit: "fit",
    steps.Remove: "remove",
    steps.Present: "present",
    steps.Drive: "drive",
    steps.Push: "push",
    steps.Stow: "stow",
    steps.Check: "check",
    steps.CheckItems: "check",
    steps.CheckLatch: "check",
    steps.Report: "report",
}


@dataclass(frozen=True, slots=True)
class Object:
    """What a step is done to, in the hazard list's terms; empty where it does not apply."""

    kind: str = ""
    reached_from: str = ""
    condition: str = ""


def object_of(step: Step, hold: Hold) -> Object:
    """The kind of thing a step is done to and where the person stands; empty for unknown names."""
    if isinstance(step, steps.Open | steps.Close):
        if step.target in hold.doors:
            return Object("door", "outside")
        panel = hold.panels.get(step.target)
        return Object("panel", panel.at) if panel else Object()
    if isinstance(step, steps.SetControl):
        control = hold.controls.get(step.control)
        return Object(control.kind, control.at) if control else Object()
    if isinstance(step, steps.Raise | steps.Lower | steps.Fit | steps.Remove):
        item = hold.restraints.get(step.item)
        return Object(item.kind, item.reached_from or "") if item else Object()
    if isinstance(step, steps.Present) and step.door is not None and len(hold.doors) > 1:
        return Object("door")  # one of several
    if isinstance(step, steps.CheckLatch):
        return Object("door") if step.door in hold.doors else Object()
    if isinstance(step, steps.Check):
        return Object(condition=step.condition)
    return Object()


def verb_of(step: Step) -> str:
    """The verb of a step; empty for section heads, warnings and notes. A push with pulling gear is a pull."""
    if isinstance(step, steps.Push) and step.gear is not None:
        return "pull"
    return _VERBS.get(type(step), "")


@dataclass(frozen=True, slots=True)
class Deed:
    """An action of a procedure: where it stands among the steps, and what it is done to."""

    index: int
    thing: Object

    def fits(self, match: Match) -> bool:
        """Whether what it is done to is what `match` asks for; the verb is looked at before."""
        if match.kinds and self.thing.kind not in match.kinds:
            return False
        if match.conditions and self.thing.condition not in match.conditions:
            return False
        return not match.reached_from or self.thing.reached_from in match.reached_from


def deeds_by_verb(procedure: Procedure, hold: Hold) -> dict[str, tuple[Deed, ...]]:
    """The actions of a procedure by their verb."""
    deeds: dict[str, list[Deed]] = {}
    for index, step in enumerate(procedure.steps):
        verb = verb_of(step)
        if verb:
            deeds.setdefault(verb, []).append(Deed(index, object_of(step, hold)))
    return {verb: tuple(found) for verb, found in deeds.items()}
