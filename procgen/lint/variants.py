"""Which hold each aircraft has, where some aircraft of a type have it otherwise."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from procgen.model.effectivity import Registered, applies_to
from procgen.model.hold import Hold
from procgen.model.station import Network


@dataclass(frozen=True, slots=True)
class Family:
    """A hold and its variants, with the aircraft of their type and the registrations each is written for."""

    name: str
    holds: tuple[Hold, ...]
    registered: Mapping[str, Registered]
    covers: Mapping[str, tuple[str, ...]]

    def for_aircraft(self, registration: str) -> tuple[Hold, ...]:
        """The descriptions that are written for one aircraft."""
        return tuple(hold for hold in self.holds if registration in self.covers[hold.name])


def families(network: Network) -> Iterator[Family]:
    """Every hold with its variants, without variants of other types’ holds."""
    for name, first in network.holds.items():
        if first.variant_of:
            continue
        holds = (first, *(one for one in network.holds.values() if sound_variant(one, first)))
        registered = network.aircraft[first.aircraft].registrations
        covers = {one.name: applies_to(one.effectivity, registered) for one in holds}
        yield Family(name, holds, registered, covers)


def sound_variant(one: Hold, first: Hold) -> bool:
    """Whether `one` is a variant of `first` and can be."""
    return one.variant_of == first.name and one.aircraft == first.aircraft and not first.variant_of
