"""Which holds one aircraft has, out of those described for its type."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from procgen.model.effectivity import Registered
from procgen.model.hold import Hold
from procgen.model.station import Aircraft, Network


@dataclass(frozen=True, slots=True)
class Outfit:
    """Aircraft that have the same holds: no registrations where the type's aircraft are not told apart."""

    registrations: tuple[str, ...]
    holds: tuple[Hold, ...]


def outfits(aircraft: Aircraft, holds: Iterable[Hold]) -> tuple[Outfit, ...]:
    """The aircraft of a type grouped by which of `holds` they have, in the fleet's order."""
    of_type = [hold for hold in holds if hold.aircraft == aircraft.name]
    if not aircraft.registrations:
        return (Outfit((), tuple(of_type)),)
    groups: dict[tuple[str, ...], list[str]] = {}
    for name, one in aircraft.registrations.items():
        groups.setdefault(tuple(hold.name for hold in of_type if has(one, hold)), []).append(name)
    by_name = {hold.name: hold for hold in of_type}
    return tuple(
        Outfit(tuple(marks), tuple(by_name[name] for name in names)) for names, marks in groups.items()
    )


def has(one: Registered, hold: Hold) -> bool:
    """Whether an aircraft of the hold's type has the hold as it is described there."""
    return hold.effectivity is None or hold.effectivity.covers(one)


def found(network: Network, registration: str) -> tuple[Aircraft, Registered] | None:
    """An aircraft by its registration, in capital or small letters."""
    for aircraft in network.aircraft.values():
        for name, one in aircraft.registrations.items():
            if name.upper() == registration.upper():
                return aircraft, one
    return None


def holds_of(network: Network, aircraft: Aircraft, one: Registered) -> Mapping[str, Hold]:
    """The holds of one aircraft, each by its own name and by every name that its variants go by."""
    return dict(_named(network, aircraft, one))


def _named(network: Network, aircraft: Aircraft, one: Registered) -> Iterator[tuple[str, Hold]]:
    of_type = [hold for hold in network.holds.values() if hold.aircraft == aircraft.name]
    for hold in of_type:
        if has(one, hold):
            yield from ((other.name, hold) for other in of_type if other.family == hold.family)


@dataclass(frozen=True, slots=True)
class Concerns:
    """What concerns one aircraft of what is described: its holds, and the procedures written by hand for it.

    `not_for` are the files of all others: what is found there is about other aircraft.
    """

    registration: str
    holds: tuple[str, ...]
    procedures: tuple[str, ...]
    not_for: frozenset[str]


def concerns(network: Network, registration: str) -> Concerns | None:
    """What concerns one aircraft; None where no aircraft has the registration."""
    known = found(network, registration)
    if known is None:
        return None
    aircraft, one = known
    holds = [hold for hold in network.holds.values() if hold.aircraft == aircraft.name and has(one, hold)]
    names = {hold.name for hold in holds}
    written = [each for station in network.stations.values() for each in station.procedures]
    mine = [
        each
        for each in written
        if each.hold in names and (each.effectivity is None or each.effectivity.covers(one))
    ]
    every = {hold.place.file for hold in network.holds.values()} | {each.place.file for each in written}
    files = {hold.place.file for hold in holds} | {each.place.file for each in mine}
    return Concerns(
        one.registration,
        tuple(hold.name for hold in holds),
        tuple(each.name for each in mine),
        frozenset(every - files),
    )
