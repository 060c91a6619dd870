"""Where people can go in a hold: through bays that are empty, from a door that is open."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from procgen.model.hold import Hold, Restraint
from procgen.model.stated import Rectangle, Span1
from procgen.model.words import OUTSIDE
from procgen.simulate.ledger import Sort
from procgen.simulate.names import called, listed
from procgen.simulate.work import Work

STEP_OVER = Fraction(3, 10)
"""The widest strip of floor, in metres, between two bays that still touch: what a person steps over.
Common practice, no source."""


def check_reach(work: Work, item: Restraint, doing: str) -> bool:
    """Whether somebody inside can get at a restraint: from one of the places beside it.

    Behind a unit nobody reaches anything; on the near side of one it can be reached from its other place.
    """
    beside = item.between or item.beside
    standing = _standing(work)
    if not beside or _is_reached(work, beside, standing):
        return True
    behind = [f"{unit} in {bay}" for unit, bay in standing]
    bays = [bay for bay in beside if bay != OUTSIDE]
    work.find(
        "out-of-reach",
        f"{doing}, which nobody can reach past {listed(behind)}" if behind else f"{doing}, out of reach",
        suggestion="do it before the unit comes in, or after it has gone",
        against=item.place,
        because=f"{called(item)} is reached from inside, at {listed(bays)}",
        item=item.name,
    )
    for stood in standing:
        # It may be the move of this unit that was forgotten or comes too late.
        if not work.at_goal(stood[0]) and _is_reached(
            work, beside, [one for one in standing if one != stood]
        ):
            work.doubt(Sort.UNIT, stood[0])
    return False


def _is_reached(work: Work, beside: tuple[str, ...], standing: list[tuple[str, str]]) -> bool:
    doors = {name for name in work.scene.hold.doors if _may_pass(work, name)}
    if not doors:
        return True  # that no door is open is said where somebody goes in
    walked = _walked(work, standing, doors)
    return any(place in walked if place != OUTSIDE else _at_one_of(work, beside, doors) for place in beside)


def _at_one_of(work: Work, beside: tuple[str, ...], doors: set[str]) -> bool:
    """Whether an item on the sill is at one of these doors: there it is reached from the platform."""
    return any(not doors.isdisjoint(work.scene.doors_at(place)) for place in beside if place != OUTSIDE)


def _walked(work: Work, standing: list[tuple[str, str]], doors: set[str]) -> frozenset[str]:
    """Every place somebody can walk to: from each of the doors through bays that touch and are empty."""
    hold = work.scene.hold
    taken = {bay for _, place in standing for bay in work.scene.sharing.get(place, ())}
    free = {bay for bay in hold.bays if bay not in taken}
    sills = {end for start, end in work.scene.neighbours if start == OUTSIDE}
    sills |= {bay for bay, one in hold.bays.items() if one.door is not None}
    beside, neighbours = hold.once(_touching), work.scene.neighbours
    queue = [bay for bay in sills & free if not doors.isdisjoint(work.scene.doors_at(bay))]
    reached = set(queue)
    while queue:
        here = queue.pop()
        onward = [bay for bay in free - reached if bay in beside[here] or (here, bay) in neighbours]
        reached.update(onward)
        queue += onward
    return frozenset(reached)


def _may_pass(work: Work, door: str) -> bool:
    return door in work.state.open_doors or work.ledger.in_doubt(Sort.DOOR, door)


def _standing(work: Work) -> list[tuple[str, str]]:
    """Units and their bays, those left out whose place has been found wrong."""
    units = work.state.units.items()
    return [
        (unit, bay) for unit, bay in units if bay != OUTSIDE and not work.ledger.in_doubt(Sort.UNIT, unit)
    ]


def _touching(hold: Hold) -> Mapping[str, frozenset[str]]:
    """For each bay the others that lie beside it."""
    floor = {name: bay.rectangle for name, bay in hold.bays.items()}
    return {
        one: frozenset(other for other, its in floor.items() if other != one and _near(mine, its))
        for one, mine in floor.items()
    }


def _near(mine: Rectangle, theirs: Rectangle) -> bool:
    """Side by side along one axis, with no more between them along the other than a person steps over."""
    along, across = _gap(mine.x, theirs.x), _gap(mine.y, theirs.y)
    return (along < 0 and across <= STEP_OVER) or (across < 0 and along <= STEP_OVER)


def _gap(mine: Span1, theirs: Span1) -> Fraction:
    """How far two intervals lie apart; below nought where they share more than an end."""
    return max(mine.low.si, theirs.low.si) - min(mine.high.si, theirs.high.si)
