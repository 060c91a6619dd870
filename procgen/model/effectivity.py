"""Which aircraft something applies to: by configuration, by registration, or both."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from procgen.diagnostics import NOWHERE, Place


@dataclass(frozen=True, slots=True)
class Configuration:
    """A way in which aircraft of one type are built or have been modified."""

    name: str
    title: str
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Registered:
    """One aircraft by its registration, with the one configuration that it has."""

    registration: str
    configuration: str
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Effectivity:
    """The aircraft that something applies to: those of any configuration named, and those named."""

    configurations: tuple[str, ...] = ()
    registrations: tuple[str, ...] = ()
    place: Place = field(default=NOWHERE, compare=False)

    def covers(self, one: Registered) -> bool:
        """Whether it applies to an aircraft of the type it was written for."""
        return one.registration in self.registrations or one.configuration in self.configurations


def applies_to(effectivity: Effectivity | None, registered: Mapping[str, Registered]) -> tuple[str, ...]:
    """The registrations that something applies to, in the fleet's order: all where it does not say."""
    return tuple(name for name, one in registered.items() if effectivity is None or effectivity.covers(one))
