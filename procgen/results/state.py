"""The state of a hold: an immutable value. A step maps one state to the next."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import combinations

from procgen.model.hold import Hold, Restraint
from procgen.model.words import Looker, RestraintState


@dataclass(frozen=True, slots=True)
class State:
    """Everything that can differ from moment to moment.

    `units` maps a unit to its bay or to `outside`; a unit that is not there is absent. `at_door` maps a
    unit that stands outside to the door it stands at, where that is known.
    `inside`: somebody may be in the hold. `path_clear`: the path was confirmed clear and nothing has
    undone it; `clear_for` is the unit that confirmation has been used for, once one has moved. It stands on
    where that unit has been pushed: its crew is inside, and nothing else may move.
    `checks` holds the names of checks made, `condition` or `condition:unit`.
    `stuck` holds restraints out of service, in the state they are stuck in; `dead` the drives, controls
    and `power` that do not work; `jammed` the units that cannot be moved from where they stand.
    `latch_seen` has each door that was closed since the start, with those who have looked at its latch since;
    opening the door undoes their looks.
    """

    restraints: Mapping[str, RestraintState]
    controls: Mapping[str, str]
    open_panels: frozenset[str]
    open_doors: frozenset[str]
    units: Mapping[str, str]
    inside: bool = False
    path_clear: bool = False
    clear_for: str | None = None
    checks: frozenset[str] = frozenset()
    stuck: Mapping[str, RestraintState] = field(default_factory=dict)
    dead: frozenset[str] = frozenset()
    at_door: Mapping[str, str] = field(default_factory=dict)
    jammed: frozenset[str] = frozenset()
    latch_seen: Mapping[str, frozenset[Looker]] = field(default_factory=dict)

    def unseen_by(self, door: str) -> tuple[Looker, ...]:
        """Who has not yet looked at the latch of a door that was closed; nobody for any other door."""
        seen = self.latch_seen.get(door)
        return () if seen is None else tuple(one for one in Looker if one not in seen)


def state_at_rest(hold: Hold, units: Mapping[str, str] | None = None) -> State:
    """The hold closed and at rest, with `units` (unit to bay) standing secured in their bays.

    Every restraint stands at rest, and one that must be left otherwise where its bays are vacant stands so;
    save that those which hold a loaded bay are raised, and that one which a unit stands over, because its bay
    covers both places beside it, is down where no spring would press against the unit; controls are at rest,
    panels and doors closed, nobody inside, nothing confirmed. This is where a procedure starts.
    """
    aboard = dict(units or {})
    restraints = {name: item.at_start for name, item in hold.restraints.items()}
    for bay in aboard.values():
        for item in stood_over(hold, bay):
            if not (hold.restraints[item].returns_by_spring or hold.restraints[item].fixed):
                restraints[item] = RestraintState.LOWERED
    for bay in aboard.values():
        position = hold.positions.get(bay)
        for item in position.held_by if position else ():
            restraints[item] = RestraintState.RAISED
    return State(
        restraints=restraints,
        controls={name: control.rest for name, control in hold.controls.items()},
        open_panels=frozenset(),
        open_doors=frozenset(),
        units=aboard,
    )


def stood_over(hold: Hold, bay: str) -> tuple[str, ...]:
    """The restraints that a unit in this bay stands over and that are not there to hold it.

    Those are the ones between two bays that both are this bay or share floor with it; and those beside two
    such bays that lie abreast, where they can be moved (one that is fixed would be in every unit's way).
    """
    return hold.once(_stood_over).get(bay, ())


def _stood_over(hold: Hold) -> Mapping[str, tuple[str, ...]]:
    stands = {name: tuple(_stands_between(hold, item)) for name, item in hold.restraints.items()}
    found: dict[str, tuple[str, ...]] = {}
    for bay in hold.bays:
        covered, position = hold.overlapping(bay) | {bay}, hold.positions.get(bay)
        holding = position.held_by if position is not None else ()
        found[bay] = tuple(
            name
            for name, pairs in stands.items()
            if name not in holding and any(covered.issuperset(pair) for pair in pairs)
        )
    return found


def _stands_between(hold: Hold, item: Restraint) -> Iterator[tuple[str, str]]:
    """The pairs of places that a restraint stands between, whichever way that is written."""
    if item.between is not None:
        yield item.between
    elif not item.fixed:
        for one, other in combinations((bay for bay in item.beside if bay in hold.bays), 2):
            first, second = hold.bays[one].rectangle, hold.bays[other].rectangle
            shared = min(first.x.high, second.x.high) > max(first.x.low, second.x.low)
            if shared and not first.overlaps(second):
                yield one, other
