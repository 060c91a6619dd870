"""Stations and the fleet they share."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from procgen.diagnostics import NOWHERE, Place
from procgen.model.effectivity import Configuration, Registered
from procgen.model.hazard import HazardList
from procgen.model.hold import Hold
from procgen.model.loads import Allowances, Contour, EmptyAircraft, LandingGear, StationWind
from procgen.model.step import Procedure
from procgen.model.unit import BaseSize, UnitType


@dataclass(frozen=True, slots=True)
class Aircraft:
    """An aircraft type of the fleet: its configurations by name, and the aircraft there are by registration.

    A type without registrations is not told apart: everything written for it applies to all of it.
    """

    name: str
    title: str
    place: Place = field(default=NOWHERE, compare=False)
    gear: LandingGear | None = None
    empty: EmptyAircraft | None = None
    configurations: Mapping[str, Configuration] = field(default_factory=dict)
    registrations: Mapping[str, Registered] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Contact:
    """Whom to call, and how."""

    role: str
    how: str


@dataclass(frozen=True, slots=True)
class Holder:
    """Somebody who has a copy of the manual, and what kind of copy."""

    who: str
    copy: str


@dataclass(frozen=True, slots=True)
class Revision:
    """The revision block of a station's pages. Dates are ISO 8601 texts."""

    number: int
    date: str
    effective: str
    author: str
    reason: str
    place: Place = field(default=NOWHERE, compare=False)


NO_REVISION = Revision(0, "", "", "", "")
"""What a station has that states none: its releases say theirs."""


@dataclass(frozen=True, slots=True)
class Station:
    """One station: the holds it works and what is its own."""

    code: str
    title: str
    holds: tuple[str, ...]
    mass_unit: str
    contacts: tuple[Contact, ...]
    revision: Revision
    procedures: tuple[Procedure, ...]
    demonstration: bool
    place: Place = field(default=NOWHERE, compare=False)
    allowances: Allowances | None = None
    wind: StationWind | None = None
    distribution: tuple[Holder, ...] = ()


@dataclass(frozen=True, slots=True)
class Network:
    """Everything that was read: the fleet's data and the stations that share it."""

    airline: str
    aircraft: Mapping[str, Aircraft]
    bases: Mapping[str, BaseSize]
    unit_types: Mapping[str, UnitType]
    holds: Mapping[str, Hold]
    stations: Mapping[str, Station]
    hazards: HazardList
    contours: Mapping[str, Contour] = field(default_factory=dict)
