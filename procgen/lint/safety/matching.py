"""Which steps a hazard comes with: the hazard list's matching, as the check reads it."""

from __future__ import annotations

from dataclasses import dataclass

from procgen.model import step as steps
from procgen.model.hazard import Hazard, HazardList, Match
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
    steps.Check: "check",
    steps.CheckItems: "check",
    steps.Report: "report",
}


@dataclass(frozen=True, slots=True)
class Object:
    """What a step is done to, in the hazard list's terms; empty where it does not apply."""

    kind: str = ""
    reached_from: str = ""


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
    return Object()


def verb_of(step: Step) -> str:
    """The verb of a step; empty for section heads, warnings and notes."""
    return _VERBS.get(type(step), "")


def matches(match: Match, step: Step, procedure: Procedure, hold: Hold) -> bool:
    """Whether all that is given in `match` fits the step."""
    if verb_of(step) not in match.verbs:
        return False
    if match.operations and procedure.operation not in match.operations:
        return False
    thing = object_of(step, hold)
    if match.kinds and thing.kind not in match.kinds:
        return False
    return not match.reached_from or thing.reached_from in match.reached_from


def matched(match: Match, procedure: Procedure, hold: Hold) -> list[int]:
    """The indexes of the steps that `match` fits."""
    return [index for index, step in enumerate(procedure.steps) if matches(match, step, procedure, hold)]


def steps_of(hazard: Hazard, procedure: Procedure, hold: Hold) -> list[int]:
    """The indexes of the steps that a hazard comes with."""
    found = {index for match in hazard.comes_with for index in matched(match, procedure, hold)}
    return sorted(found)


def hazards_of(procedure: Procedure, hold: Hold, hazards: HazardList) -> list[tuple[Hazard, list[int]]]:
    """The hazards that come with some step of a procedure, and these steps' indexes."""
    found = [(hazard, steps_of(hazard, procedure, hold)) for hazard in hazards.hazards.values()]
    return [(hazard, indexes) for hazard, indexes in found if indexes]
