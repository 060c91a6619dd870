"""Where warnings and checks stand in a composed procedure: looked up by the tests' own reading of a match."""

from __future__ import annotations

from collections.abc import Sequence

from procgen.model.hazard import Frequency, Hazard, HazardList, Match, Scope
from procgen.model.hold import Hold
from procgen.model.step import (
    Check,
    Close,
    Drive,
    Fit,
    Lower,
    Open,
    Present,
    Procedure,
    Push,
    Raise,
    Remove,
    Section,
    SetControl,
    Step,
    Stow,
    Warn,
)
from procgen.model.words import Operation

MADE_BY_THE_PLAN = ("path-clear", "everyone-out")
NAMES: dict[type[Step], str] = {
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
}


def _verb(step: Step) -> str:
    return "pull" if isinstance(step, Push) and step.gear else NAMES.get(type(step), "-")


def _is(match: Match, step: Step, hold: Hold, operation: Operation) -> bool:
    """Whether a step is meant, for the verbs that the packaged list uses."""
    thing, where = "", ""
    match step:
        case Open(target) | Close(target):
            thing = "door" if target in hold.doors else "panel"
        case Raise(item) | Lower(item) | Fit(item) | Remove(item):
            thing = str(hold.restraints[item].kind)
            where = str(hold.restraints[item].reached_from)
        case Present(_, door):
            thing = "door" if door else ""
        case _:
            pass
    return (
        _verb(step) in match.verbs
        and (not match.kinds or thing in match.kinds)
        and (not match.reached_from or where in match.reached_from)
        and (not match.operations or operation in match.operations)
    )


def matching(procedure: Procedure, hold: Hold, matches: Sequence[Match]) -> list[int]:
    """The steps that any of these means."""
    return [
        index
        for index, step in enumerate(procedure.steps)
        if any(_is(match, step, hold, procedure.operation) for match in matches)
    ]


def met_at_doors(procedure: Procedure, hold: Hold, hazards: HazardList) -> list[Hazard]:
    """The hazards without those of work at several doors, where not more than one is opened."""
    opened = {step.target for step in procedure.steps if isinstance(step, Open)} & set(hold.doors)
    return [hazard for hazard in hazards.hazards.values() if len(opened) > 1 or not hazard.several_doors]


def _head(procedure: Procedure, index: int) -> int:
    """The head of the section that a step stands in."""
    return max(i for i in range(index + 1) if isinstance(procedure.steps[i], Section))


def _warned_from(procedure: Procedure, index: int, step: int) -> list[str]:
    """The hazards of the warnings that run on from an index, forwards or backwards."""
    names: list[str] = []
    while isinstance(warning := procedure.steps[index], Warn):
        names.append(warning.hazard)
        index += step
    return names


def assert_warnings_in_place(procedure: Procedure, hold: Hold, hazards: HazardList) -> None:
    """Every warning where its scope says, and none anywhere else."""
    expected = 0
    for hazard in met_at_doors(procedure, hold, hazards):
        where = matching(procedure, hold, hazard.comes_with)
        if hazard.scope is Scope.PROCEDURE:
            heads = {0} if where else set()
        else:
            heads = {_head(procedure, index) for index in where}
        if hazard.scope is Scope.STEP:
            assert all(hazard.name in _warned_from(procedure, index - 1, -1) for index in where)
            expected += len(where)
        else:
            assert all(hazard.name in _warned_from(procedure, head + 1, 1) for head in heads)
            expected += len(heads)
    found = [step for step in procedure.steps if isinstance(step, Warn)]
    assert len(found) == expected
    assert all(step.signal == hazards.hazards[step.hazard].signal for step in found)


def assert_checks_in_time(procedure: Procedure, hold: Hold, hazards: HazardList) -> None:
    """Every required check made once, before what needs it and after what it looks at."""
    asked: set[tuple[str, str | None]] = set()
    every: list[tuple[str, str | None]] = []
    for hazard in met_at_doors(procedure, hold, hazards):
        for check in hazard.checks:
            before = matching(procedure, hold, [check.before])
            if check.frequency is Frequency.EACH_UNIT:
                for unit in dict.fromkeys(getattr(procedure.steps[i], "unit", "") for i in before):
                    first = next(i for i in before if getattr(procedure.steps[i], "unit", "") == unit)
                    made = procedure.steps.index(Check(check.condition, unit))
                    assert made < first
                    assert all(isinstance(step, Check) for step in procedure.steps[made:first])
                    asked.add((check.condition, unit))
            elif check.frequency is Frequency.EACH_STEP:
                for index in before:
                    at = index - 1
                    while isinstance(procedure.steps[at], (Check, Warn)):
                        at -= 1
                    assert Check(check.condition) in procedure.steps[at + 1 : index]
                    every.append((check.condition, None))
            elif before:
                after = matching(procedure, hold, [check.after]) if check.after else []
                waits = max((index for index in after if index < before[0]), default=-1)
                assert Check(check.condition) in procedure.steps[waits + 1 : before[0]]
                asked.add((check.condition, None))
    found = [step for step in procedure.steps if isinstance(step, Check)]
    own = [(step.condition, step.unit) for step in found if step.condition not in MADE_BY_THE_PLAN]
    owed = [one for one in [*asked, *every] if one[0] not in MADE_BY_THE_PLAN]
    assert sorted(own, key=str) == sorted(owed, key=str)
