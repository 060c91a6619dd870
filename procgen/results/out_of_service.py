"""A hold with items out of service: what can fail how, the hold that is left, the state it stands in."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from procgen.model.hold import Hold
from procgen.model.step import OutOfService
from procgen.model.words import POWER, Failure, RestraintKind, RestraintState
from procgen.results.state import State

_STUCK = {
    Failure.DOWN: RestraintState.LOWERED,
    Failure.UP: RestraintState.RAISED,
    Failure.MISSING: RestraintState.LOWERED,
}

_WORDS = {
    Failure.DEAD: "dead",
    Failure.DOWN: "stuck down",
    Failure.UP: "stuck up",
    Failure.MISSING: "missing",
}
_NET_WORDS = {**_WORDS, Failure.DOWN: "cannot be fitted", Failure.UP: "cannot be removed"}


def possible_failures(hold: Hold) -> Mapping[str, tuple[Failure, ...]]:
    """Every item of a hold that can be out of service, with the ways in which it can be.

    Drives, controls and the power are dead; a restraint that moves is stuck down, stuck up or missing, and a
    fixed one can only be missing. In the order of the description, the power first.
    """
    found: dict[str, tuple[Failure, ...]] = {POWER: (Failure.DEAD,)} if hold.power is not None else {}
    for name in (*hold.controls, *hold.drives):
        found[name] = (Failure.DEAD,)
    for name, item in hold.restraints.items():
        movable = (Failure.DOWN, Failure.UP, Failure.MISSING)
        found[name] = (Failure.MISSING,) if item.fixed else movable
    return found


def without(hold: Hold, out: Iterable[OutOfService]) -> Hold:
    """The hold as it can be worked with items out of service.

    A restraint that is stuck down or missing holds nothing: the positions that it holds have to do with what
    is left (their limits follow from that). Everything else about it stays: what it must guide or close
    cannot be done.
    """
    gone = frozenset(one.item for one in out if one.failure in (Failure.DOWN, Failure.MISSING))
    held_by = frozenset(item for position in hold.positions.values() for item in position.held_by)
    if not gone & held_by:
        return hold
    lefts = hold.once(_lefts)
    if gone not in lefts:
        positions = {
            name: replace(position, held_by=tuple(item for item in position.held_by if item not in gone))
            for name, position in hold.positions.items()
        }
        lefts[gone] = replace(hold, positions=positions)
    return lefts[gone]


def _lefts(_: Hold) -> dict[frozenset[str], Hold]:
    """What is left of a hold by what is gone, filled as it is asked for: so each is looked into only once."""
    return {}


def failed(hold: Hold, state: State, out: Iterable[OutOfService]) -> State:
    """A state with items out of service, each as it has failed.

    A missing restraint is out of the way and holds nothing. Whether an interlock lets power on without the
    item it watches is not known, so power is taken to be off for good then.
    """
    stuck: dict[str, RestraintState] = dict(state.stuck)
    dead = set(state.dead)
    for one in out:
        if one.failure is Failure.DEAD:
            dead.add(one.item)
            continue
        stuck[one.item] = _STUCK[one.failure]
        watched = hold.power is not None and one.item in hold.power.needs
        if one.failure is Failure.MISSING and watched:
            dead.add(POWER)
    return replace(state, restraints={**state.restraints, **stuck}, stuck=stuck, dead=frozenset(dead))


def title_of(hold: Hold, item: str) -> str:
    """What is painted on an item, or `power`; its name where the hold does not have it."""
    for group in (hold.restraints, hold.controls, hold.drives):
        if item in group:
            return group[item].title
    return item


def failure_words(hold: Hold, one: OutOfService) -> str:
    """An item and how it has failed, in words: `lock 41 stuck down`, `net 1 cannot be fitted`."""
    title = title_of(hold, one.item)
    is_net = one.item in hold.restraints and hold.restraints[one.item].kind is RestraintKind.NET
    return f"{title} {(_NET_WORDS if is_net else _WORDS)[one.failure]}"
