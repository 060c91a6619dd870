"""How many people push a unit."""

from __future__ import annotations

import math

from procgen.model.hand_moves import HandMoves
from procgen.model.unit import UnitType
from procgen.units import STANDARD_GRAVITY

LEAST = 2
"""Nobody pushes a unit alone."""


def crew(leave: HandMoves, unit: UnitType) -> int:
    """People needed to push a unit at its maximum gross mass.

    Force = m g0 (c + t) with the resistance c and the slope t as ratios, for starting and for keeping
    moving; each over what one person may be asked for, rounded up; the larger counts, and two at least.
    On a slope s the exact force is m g0 (c cos s + sin s), which is never larger, t being tan s.
    """
    weight = unit.max_gross.quantity.si * STANDARD_GRAVITY
    slope = leave.slope.quantity.si
    starting = weight * (leave.resistance_starting.quantity.si + slope) / leave.force_starting.quantity.si
    moving = weight * (leave.resistance_moving.quantity.si + slope) / leave.force_moving.quantity.si
    return max(LEAST, math.ceil(starting), math.ceil(moving))
