"""The plan for a whole aircraft: in which order its holds are worked, and how it stands on its wheels."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from procgen.model.step import Procedure
from procgen.model.words import Operation
from procgen.results.load_check import GivenUnit
from procgen.results.plan import Reason
from procgen.results.stability import Gear, HoldOrder


@dataclass(frozen=True, slots=True)
class Sequence:
    """One operation of a whole aircraft: the order of its holds, with the procedure of each in that order.

    `units` are loaded or unloaded, `aboard` stay. `order.holds` are the keys of `procedures`.
    """

    aircraft: str
    operation: Operation
    gear: Gear
    order: HoldOrder
    procedures: Mapping[str, Procedure]
    units: tuple[GivenUnit, ...]
    aboard: tuple[GivenUnit, ...] = ()


@dataclass(frozen=True, slots=True)
class NoSequence:
    """There is no plan for the aircraft; at least one reason why."""

    aircraft: str
    operation: Operation
    reasons: tuple[Reason, ...]
