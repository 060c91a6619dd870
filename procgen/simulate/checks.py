"""Checks: what a look confirms, and what it cannot."""

from __future__ import annotations

from dataclasses import replace

from procgen.model.hold import Restraint
from procgen.model.step import Check, CheckItems
from procgen.model.words import RestraintState
from procgen.simulate.ledger import Sort
from procgen.simulate.names import called, did_you_mean, listed, stands, verb_for
from procgen.simulate.work import Work

PATH_CLEAR = "path-clear"
EVERYONE_OUT = "everyone-out"


def make_check(work: Work, step: Check) -> None:
    """Note a named check; two of them say something of the people in the hold."""
    if step.unit is not None:
        _unit(work, step.condition, step.unit)
    made = step.condition if step.unit is None else f"{step.condition}:{step.unit}"
    work.state = replace(work.state, checks=work.state.checks | {made})
    if step.condition == PATH_CLEAR:
        work.state = replace(work.state, inside=False, path_clear=True, clear_for=None)
    elif step.condition == EVERYONE_OUT:
        work.state = replace(work.state, inside=False)


def _unit(work: Work, condition: str, unit: str) -> None:
    procedure = work.scene.procedure
    known = tuple(dict.fromkeys((*procedure.units, *procedure.aboard, *work.state.units)))
    if unit not in known:
        work.find(
            "unknown-in-hold",
            f"checks {condition} for “{unit}”, a unit which this procedure does not have",
            suggestion=did_you_mean(unit, known, "unit"),
            unit=unit,
        )


def check_items(work: Work, step: CheckItems) -> None:
    """Look that restraints stand as they must; that some cannot stand so at this step is one finding."""
    restraints = work.scene.hold.restraints
    wrong: list[Restraint] = []
    for name in step.items:
        item = restraints.get(name)
        if item is None:
            work.find(
                "unknown-in-hold",
                f"checks “{name}”, which {work.scene.hold.name} does not have",
                suggestion=did_you_mean(name, tuple(restraints), "restraint"),
                item=name,
            )
        elif work.restraint(name) is step.state:
            work.ledger = work.ledger.settled(Sort.RESTRAINT, name)
        elif not work.excused(Sort.RESTRAINT, name, step.state.value):
            wrong.append(item)
    if wrong:
        _contradicts(work, step.state, wrong)


def _contradicts(work: Work, wanted: RestraintState, wrong: list[Restraint]) -> None:
    first, titles = wrong[0], [called(item) for item in wrong]
    verb, it = ("is", "it is") if len(wrong) == 1 else ("are", "they are")
    now = stands(first, work.restraint(first.name))
    work.find(
        "check-contradicts-hold",
        f"checks that {listed(titles)} {verb} {stands(first, wanted)}, but {it} {now}",
        suggestion=f"{verb_for(first, wanted)} {listed(titles)} before this step, or correct the check"
        if all(item.by_hand for item in wrong)
        else "correct the check",
        against=first.place,
        because=f"{called(first)} is {stands(first, first.at_rest)} at rest",
        item=first.name,
    )
    for item in wrong:
        work.doubt(Sort.RESTRAINT, item.name)
