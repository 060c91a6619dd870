"""Which restraints a person can get at while units stand in the hold.

Someone inside walks from a bay at an open door over empty bays that touch. An item between two bays can
be worked from either; one beside a bay from that bay. Nobody moves what a unit stands on.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from procgen.model.words import OUTSIDE
from procgen.plan.machine import Machine


@dataclass(slots=True)
class Reach:
    """What can be reached in one machine through some open doors; remembers what it has found."""

    machine: Machine
    doors: frozenset[str]
    _chains: dict[frozenset[str], frozenset[str]] = field(default_factory=dict)

    def reaches(self, item: str, occupied: Iterable[str]) -> bool:
        """Whether a restraint can be moved by hand with units standing in the `occupied` bays."""
        taken = frozenset(occupied)
        if any(item in self.machine.under.get(bay, ()) for bay in taken):
            return False
        if not self.machine.is_inside(item):
            return True
        places = self.machine.places(item)
        if not places or not self._chain(taken).isdisjoint(places):
            return True
        bays = [self.machine.hold.bays[place] for place in places if place in self.machine.hold.bays]
        return OUTSIDE in places and any(bay.door in self.doors for bay in bays)

    def _chain(self, taken: frozenset[str]) -> frozenset[str]:
        if taken not in self._chains:
            self._chains[taken] = reached_on_foot(self.machine, self.doors, taken)
        return self._chains[taken]


def reached_on_foot(machine: Machine, doors: frozenset[str], taken: Iterable[str]) -> frozenset[str]:
    """The empty bays that people walk to from open doors, with units standing in the `taken` bays."""
    closed = {bay for place in taken for bay in machine.excluded.get(place, ())}
    left = [name for name, bay in machine.hold.bays.items() if bay.door in doors and name not in closed]
    seen = set(left)
    while left:
        for bay in machine.touching[left.pop()]:
            if bay not in seen and bay not in closed:
                seen.add(bay)
                left.append(bay)
    return frozenset(seen)


def in_front(machine: Machine, item: str, standing: Mapping[str, str]) -> tuple[str, ...]:
    """The units that stand at an item that cannot be reached; where there are none, all of them."""
    places = machine.places(item)
    near = [
        name
        for name, bay in standing.items()
        if item in machine.under.get(bay, ()) or not machine.excluded.get(bay, frozenset()).isdisjoint(places)
    ]
    return tuple(near or standing)
