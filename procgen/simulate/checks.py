"""Checks: what a look confirms, and what it cannot."""

from __future__ import annotations

from dataclasses import replace

from procgen.model.step import Check, CheckItems
from procgen.simulate.ledger import Sort
from procgen.simulate.names import called, did_you_mean, stands, verb_for
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
    """Look that restraints stand as they must; one that cannot stand so at this step is a finding."""
    restraints = work.scene.hold.restraints
    for name in step.items:
        item = restraints.get(name)
        if item is None:
            work.find(
                "unknown-in-hold",
                f"checks “{name}”, which {work.scene.hold.name} does not have",
                suggestion=did_you_mean(name, tuple(restraints), "restraint"),
                item=name,
            )
            continue
        now, wanted = work.restraint(name), step.state
        if now is wanted:
            work.ledger = work.ledger.settled(Sort.RESTRAINT, name)
        elif not work.excused(Sort.RESTRAINT, name, wanted.value):
            work.find(
                "check-contradicts-hold",
                f"checks that {called(item)} is {stands(item, wanted)}, but it is {stands(item, now)}",
                suggestion=f"{verb_for(item, wanted)} {called(item)} before this step"
                if item.by_hand
                else "correct the check",
                against=item.place,
                because=f"{called(item)} is {stands(item, item.at_rest)} at rest",
                item=name,
            )
            work.doubt(Sort.RESTRAINT, name)
