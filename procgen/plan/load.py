"""What has to be moved: a unit, its type, where it is and where it goes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from procgen.model.step import PlannedUnit
from procgen.model.unit import UnitType
from procgen.plan.machine import Machine


@dataclass(frozen=True, slots=True)
class Load:
    """One unit to move, from a place to a place (either may be `outside`).

    `door` is the door at which it stands already, None where it is brought to whichever suits.
    """

    unit: PlannedUnit
    unit_type: UnitType
    start: str
    goal: str
    door: str | None = None

    @property
    def name(self) -> str:
        """The unit's name."""
        return self.unit.name


def pinned(machine: Machine, bays: Iterable[str]) -> frozenset[str]:
    """The restraints that must be up while units stand in `bays`."""
    return frozenset(item for bay in bays for item in machine.held_by(bay))


def holders(machine: Machine, standing: Mapping[str, str], item: str) -> tuple[str, ...]:
    """The units that a restraint holds."""
    return tuple(unit for unit, bay in standing.items() if item in machine.held_by(bay))
