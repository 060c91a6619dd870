"""What happens in a plan before it is put into steps: hand actions and moves, and what each depends on.

An event knows how things must stand as it happens (`wants`). So hand actions that undo one another can
be left out, and others done early, without going through the machine again.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from procgen.plan.load import Load
from procgen.plan.machine import Machine
from procgen.plan.run import Run

SWITCH = "the power switch"
"""Stands for the power switch among the things that are touched; no item can have this name."""
ON, OFF = "on", "off"


class Purpose(StrEnum):
    """Why something is touched."""

    WAY = "way"  # a unit is about to move
    SECURE = "secure"  # a unit has arrived, or another has passed an item that holds it
    CLOSE = "close"  # the hold is left as it must be


@dataclass(frozen=True, slots=True)
class Touch:
    """A restraint raised or lowered by hand, or the power switch set (`what` is `SWITCH`)."""

    what: str
    to: str
    purpose: Purpose


@dataclass(frozen=True, slots=True)
class Move:
    """A unit moved in one step; `crew` people where it is pushed, or pulled with `gear`."""

    load: Load
    run: Run
    crew: int = 0
    gear: str | None = None


Event = Touch | Move


def wants(machine: Machine, event: Event) -> Mapping[str, str]:
    """How things must stand as the event happens; what is not named does not matter to it."""
    power = machine.hold.power
    if isinstance(event, Move):
        switch = {SWITCH: ON} if event.run.needs_power else {}
        return {**event.run.wants, **switch}
    if power is None:
        return {}
    if event.what == SWITCH:
        return dict(power.needs) if event.to == ON else {}
    if machine.is_interlock(event.what) and not power.interlock_moves_while_on:
        return {SWITCH: OFF}
    return {}


def dropped(event: Event) -> tuple[str, ...]:
    """The restraints that a moving unit pushes down for good."""
    return event.run.dropped if isinstance(event, Move) else ()


def cancel(machine: Machine, events: Sequence[Event]) -> list[Event]:
    """Leave out every hand action that a later one undoes before anything has depended on it."""
    kept = list(events)
    while True:
        pair = _useless(machine, kept)
        if pair is None:
            return kept
        first, second = pair
        kept = [event for index, event in enumerate(kept) if index not in (first, second)]


def _useless(machine: Machine, events: Sequence[Event]) -> tuple[int, int] | None:
    last: dict[str, tuple[int, str]] = {}
    for index, event in enumerate(events):
        for item in dropped(event):
            last.pop(item, None)
        for what, state in wants(machine, event).items():
            if what in last and last[what][1] == state:
                del last[what]
        if isinstance(event, Touch):
            if event.what in last:
                return last[event.what][0], index
            last[event.what] = (index, event.to)
    return None


def hoist(
    machine: Machine, events: Sequence[Event], start: Mapping[str, str], kept: frozenset[str]
) -> tuple[list[Touch], list[Event]]:
    """Take out the hand actions that can as well be done before the first unit moves.

    That is: the first touch of its item, made for a unit's way, that no earlier event minds; and not of an
    item in `kept`. Returns those and the events that are left.
    """
    early: dict[str, Touch] = {}
    settled: set[str] = set()
    for index, event in enumerate(events):
        if isinstance(event, Touch) and event.what not in settled:
            if _is_early(machine, event, events[:index], start, kept):
                early[event.what] = event
            settled.add(event.what)
        settled.update(dropped(event))
    switch = early.get(SWITCH)
    if switch is not None:
        stands = {**start, **{what: touch.to for what, touch in early.items()}}
        if any(stands[item] != state for item, state in wants(machine, switch).items()):
            del early[SWITCH]
    taken = [id(touch) for touch in early.values()]
    return list(early.values()), [event for event in events if id(event) not in taken]


def _is_early(
    machine: Machine,
    touch: Touch,
    before: Sequence[Event],
    start: Mapping[str, str],
    kept: frozenset[str],
) -> bool:
    if touch.purpose is not Purpose.WAY or (touch.what == SWITCH and touch.to == OFF):
        return False
    if touch.what in kept:
        return False
    asked = wants(machine, touch)
    if SWITCH in asked and start[SWITCH] != asked[SWITCH]:
        return False
    return all(wants(machine, event).get(touch.what, touch.to) == touch.to for event in before)
