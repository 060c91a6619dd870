"""What moving units by hand in a hold takes: forces, resistances, and gear to pull with."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from procgen.diagnostics import NOWHERE, Place
from procgen.model.stated import Stated
from procgen.units import Quantity


@dataclass(frozen=True, slots=True)
class PullingGear:
    """A strap, hook or the like that people pull a unit with, standing on the platform.

    `pull` is the most that may be pulled with it, all people together; `length` goes from the unit to the
    hands of those who pull.
    """

    name: str
    title: str
    pull: Stated
    length: Quantity
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class HandMoves:
    """Leave to push units by hand, and the figures the crew is computed from.

    A hold without this record forbids hand moves. Resistances (force per weight) and the slope (a
    tangent, the worst to be met) are ratios; the forces are what one person may be asked for, to set a
    unit moving and to keep it moving. `gear` is what units may be pulled with; without it nobody pulls.
    """

    resistance_starting: Stated
    resistance_moving: Stated
    slope: Stated
    force_starting: Stated
    force_moving: Stated
    max_mass: Stated | None = None
    place: Place = field(default=NOWHERE, compare=False)
    gear: Mapping[str, PullingGear] = field(default_factory=dict)
