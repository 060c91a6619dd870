"""Restraints moved by hand: raise, lower, fit, remove."""

from __future__ import annotations

from procgen.model.hold import Restraint
from procgen.model.step import Fit, Lower, Raise, Remove
from procgen.model.words import RestraintKind, RestraintState
from procgen.simulate.ledger import Sort
from procgen.simulate.names import called, did_you_mean, listed, nearest, stands, verb_for
from procgen.simulate.reach import reach_restraint
from procgen.simulate.things import wrong_verb
from procgen.simulate.work import Work

HandStep = Raise | Lower | Fit | Remove

_VERBS: dict[type[HandStep], tuple[str, RestraintState]] = {
    Raise: ("raises", RestraintState.RAISED),
    Lower: ("lowers", RestraintState.LOWERED),
    Fit: ("fits", RestraintState.RAISED),
    Remove: ("removes", RestraintState.LOWERED),
}


def move_by_hand(work: Work, step: HandStep) -> None:
    """Raise, lower, fit or remove a restraint."""
    verb, wanted = _VERBS[type(step)]
    name = _known(work, step.item, verb, wanted)
    if name is None:
        return
    item = work.scene.hold.restraints[name]
    doing = f"{verb} {called(item)}"
    if not _suits(work, step, item, wanted, doing) or not _moves(work, item, wanted, doing):
        return
    if not _changes(work, item, wanted, doing):
        return
    reached = True
    if work.ledger.in_doubt(Sort.RESTRAINT, name):
        work.settle(Sort.RESTRAINT, name)  # it came too late, which has been said
    else:
        reached = reach_restraint(work, item, doing)
    _interlock(work, item, doing)
    if wanted is RestraintState.RAISED and reached:
        _under_unit(work, item, doing)
    work.put_restraint(name, wanted)
    work.settle(Sort.RESTRAINT, name)
    if name != step.item or not reached:
        work.doubt(Sort.RESTRAINT, name)  # it is only a guess that this one was meant


def _known(work: Work, name: str, verb: str, wanted: RestraintState) -> str | None:
    """The restraint a step names; of an unknown name the one it must mean, if there is only one."""
    restraints = work.scene.hold.restraints
    if name in restraints:
        return name
    if wrong_verb(work, name, verb):
        work.owe(Sort.RESTRAINT, wanted.value)
        return None
    by_hand = [other for other, item in restraints.items() if item.by_hand]
    work.find(
        "unknown-in-hold",
        f"{verb} “{name}”, which {work.scene.hold.name} does not have",
        suggestion=did_you_mean(name, by_hand, "item that is moved by hand"),
        item=name,
    )
    near = nearest(name, by_hand)
    if len(near) == 1:
        return near[0]
    work.owe(Sort.RESTRAINT, wanted.value)
    return None


def _suits(work: Work, step: HandStep, item: Restraint, wanted: RestraintState, doing: str) -> bool:
    """A net is fitted and removed, everything else is raised and lowered.

    With the wrong verb the writer may mean this item or another.
    """
    suits = (item.kind is RestraintKind.NET) is isinstance(step, Fit | Remove)
    if not suits:
        other = "is fitted and removed" if item.kind is RestraintKind.NET else "is raised and lowered"
        work.find(
            "wrong-verb-for-item",
            f"{doing}, but a {item.kind} {other}",
            suggestion=f"write “{verb_for(item, wanted)}: {item.name}”",
            against=item.place,
            because=f"{called(item)} is a {item.kind}",
            item=item.name,
        )
        work.doubt(Sort.RESTRAINT, item.name)
        work.owe(Sort.RESTRAINT, wanted.value)
    return suits


def _moves(work: Work, item: Restraint, wanted: RestraintState, doing: str) -> bool:
    """Whether a hand moves this restraint at all; what the step should have done is owed if not."""
    if item.fixed:
        rule, message, because = "fixed-item-moved", f"{doing}, which is fixed", "it is fixed"
        suggestion = "delete this step, or name the item that was meant"
    elif not item.by_hand:
        rule, message = "controlled-item-moved-by-hand", f"{doing} by hand, but no hand moves it"
        because = "only a control moves it"
        suggestion = "hold the control that moves it in the drive step"
    else:
        return True
    work.find(
        rule,
        message,
        suggestion=suggestion,
        against=item.place,
        because=f"{called(item)}: {because}",
        item=item.name,
    )
    work.doubt(Sort.RESTRAINT, item.name)
    work.owe(Sort.RESTRAINT, wanted.value)
    return False


def _under_unit(work: Work, item: Restraint, doing: str) -> None:
    """Nothing comes up under a unit that stands over it."""
    for unit, bay in work.state.units.items():
        if item.name in work.scene.beneath.get(bay, ()) and not work.ledger.in_doubt(Sort.UNIT, unit):
            work.find(
                "unit-over-raised-restraint",
                f"{doing}, over which {unit} stands in {bay}",
                suggestion="move the unit off before this step, or delete this step",
                against=item.place,
                because=f"{called(item)} stands between {listed(item.between or item.beside)},"
                f" which {bay} covers",
                item=item.name,
                bay=bay,
                unit=unit,
            )
            if not work.at_goal(unit):
                work.doubt(Sort.UNIT, unit)  # it may be its move that was forgotten


def _interlock(work: Work, item: Restraint, doing: str) -> None:
    """Some holds forbid moving an interlock item while the power switch is on."""
    power = work.scene.hold.power
    if power is None or power.interlock_moves_while_on or item.name not in power.needs:
        return
    switch = work.scene.hold.controls.get(power.switch)
    if switch is None or work.control(power.switch) != power.on:
        return
    if work.excused(Sort.CONTROL, power.switch, power.off):
        return
    work.find(
        "interlock-moved-under-power",
        f"{doing} while {called(switch)} is {power.on}, which this hold forbids",
        suggestion=f"set {called(switch)} to {power.off} before this step",
        against=power.place,
        because=f"{called(item)} is an interlock of the power",
        item=item.name,
    )
    work.doubt(Sort.CONTROL, power.switch)


def _changes(work: Work, item: Restraint, wanted: RestraintState, doing: str) -> bool:
    """Whether the step can change anything, and does."""
    now = work.restraint(item.name)
    opposite = RestraintState.LOWERED if wanted is RestraintState.RAISED else RestraintState.RAISED
    if item.name in work.state.stuck and now is not wanted:
        if not work.excused(Sort.RESTRAINT, item.name, wanted.value):
            work.find(
                "step-without-effect",
                f"{doing}, which is out of service, stuck {stands(item, now)}",
                suggestion="delete this step, and do without this item",
                against=item.place,
                because=called(item),
                item=item.name,
            )
            work.doubt(Sort.RESTRAINT, item.name)
        return False
    if now is wanted and not work.excused(Sort.RESTRAINT, item.name, opposite.value):
        work.find(
            "step-without-effect",
            f"{doing}, which is {stands(item, now)} already",
            suggestion="delete this step, or write what was meant:"
            f" “{verb_for(item, opposite)}: {item.name}”, or another item",
            against=item.place,
            because=called(item),
            item=item.name,
        )
        work.doubt(Sort.RESTRAINT, item.name)
        work.owe(Sort.RESTRAINT, wanted.value)
        return False
    return True
