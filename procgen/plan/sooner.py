"""Put hand actions where they can be done: an item past a unit is worked before the unit stands there.

Everything that happens is known by then. A hand action that cannot be reached where it stands is done
as late before as it can be, if nothing between minds.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from procgen.model.words import OUTSIDE
from procgen.plan.events import SWITCH, Event, Move, Purpose, Touch, dropped, wants
from procgen.plan.reach import Reach


@dataclass(frozen=True, slots=True)
class Unreached:
    """A hand action that no person can get at, with the units that stand then.

    `lowered_for` is the move for whose sake the item was moved by hand before, if it was.
    """

    touch: Touch
    standing: Mapping[str, str]
    lowered_for: Move | None


def sooner(
    reach: Reach, events: Sequence[Event], start: Mapping[str, str], units: Mapping[str, str]
) -> list[Event] | Unreached:
    """The events with every hand action where it can be reached; or the first that cannot be.

    `start` says how everything that can be touched stands at first, `units` where the units are.
    """
    done = list(events)
    for index in range(len(done)):
        event = done[index]
        if not isinstance(event, Touch) or event.what == SWITCH:
            continue
        where = _positions(done, units)
        if reach.reaches(event.what, _bays(where[index])):
            continue
        earlier = _earlier(reach, done[:index], event, start, where)
        if earlier is None:
            return Unreached(event, where[index], _moved_for(done, index, event))
        done.insert(earlier, done.pop(index))
    return done


def _earlier(
    reach: Reach,
    before: Sequence[Event],
    touch: Touch,
    start: Mapping[str, str],
    where: Sequence[Mapping[str, str]],
) -> int | None:
    """The latest place where the hand action can be done among the events `before` it, if there is one."""
    for index in range(len(before) - 1, -1, -1):
        event = before[index]
        if wants(reach.machine, event).get(touch.what, touch.to) != touch.to or touch.what in dropped(event):
            return None
        if isinstance(event, Touch) and event.what == touch.what:
            return None
        if reach.reaches(touch.what, _bays(where[index])) and _may(reach, before[:index], touch, start):
            return index
    return None


def _may(reach: Reach, before: Sequence[Event], touch: Touch, start: Mapping[str, str]) -> bool:
    """Whether what a hand action depends on stands rightly after some events."""
    stands = dict(start)
    for event in before:
        if isinstance(event, Touch):
            stands[event.what] = event.to
    return all(stands[what] == state for what, state in wants(reach.machine, touch).items())


def _positions(events: Sequence[Event], units: Mapping[str, str]) -> list[Mapping[str, str]]:
    """Where the units are before each event."""
    where: list[Mapping[str, str]] = []
    now = dict(units)
    for event in events:
        where.append(dict(now))
        if isinstance(event, Move):
            now[event.load.name] = event.run.hops[-1].end
    return where


def _bays(standing: Mapping[str, str]) -> list[str]:
    return [bay for bay in standing.values() if bay != OUTSIDE]


def _moved_for(events: Sequence[Event], index: int, touch: Touch) -> Move | None:
    """The move for whose sake an item is out of place: the hand action's own, or the one before it."""
    if touch.purpose is Purpose.WAY:
        return next((event for event in events[index:] if isinstance(event, Move)), None)
    for earlier in range(index - 1, -1, -1):
        event = events[earlier]
        if isinstance(event, Move) and touch.what in event.run.dropped:
            return event
        if isinstance(event, Touch) and event.what == touch.what:
            return next((later for later in events[earlier:] if isinstance(later, Move)), None)
    return None
