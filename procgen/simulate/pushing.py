"""Moves by hand: the hold's leave, and how many people it takes.

Force to move a unit: F = m g0 (c + s), with c the resistance (starting, moving) and s the floor slope as a
tangent: cos s is taken as 1 and sin s as s, which asks for more. Crew = F / force per person, up to the
next whole number; the larger of starting and moving counts, never under two. The mass is the maximum
gross mass of the unit's type, because a procedure is written for every load.
"""

from __future__ import annotations

import math
from fractions import Fraction

from procgen.model.hand_moves import HandMoves
from procgen.model.step import Push
from procgen.model.unit import UnitType
from procgen.simulate.ledger import Sort
from procgen.simulate.work import Work
from procgen.units import STANDARD_GRAVITY

FEWEST = 2
"""Nobody moves a unit alone."""


def crew_for(moves: HandMoves, mass: Fraction) -> int:
    """How many people it takes to push `mass` (kg)."""
    slope = moves.slope.quantity.si
    weight = mass * STANDARD_GRAVITY
    starting = weight * (moves.resistance_starting.quantity.si + slope) / moves.force_starting.quantity.si
    moving = weight * (moves.resistance_moving.quantity.si + slope) / moves.force_moving.quantity.si
    return max(FEWEST, math.ceil(starting), math.ceil(moving))


def check_push(work: Work, step: Push, unit: str | None, doing: str) -> None:
    """The hold must allow the push, and the crew must be large enough."""
    moves = work.scene.hold.hand_moves
    if moves is None:
        if not work.excused(Sort.HANDS, "", ""):
            work.find(
                "hand-move-forbidden",
                f"{doing} by hand, which {work.scene.hold.name} does not allow",
                suggestion="drive the unit, or describe the hold's leave under “hand-moves” with its source",
                against=work.scene.hold.place,
                because="the hold says nothing of hand moves",
                unit=step.unit,
            )
            work.doubt(Sort.HANDS, "")
        return
    unit_type = work.scene.type_of(unit) if unit is not None else None
    if unit_type is None or _too_heavy(work, step, moves, unit_type, doing):
        return
    needed = crew_for(moves, unit_type.max_gross.quantity.si)
    if step.crew < needed:
        work.find(
            "crew-too-small",
            f"{doing} with a crew of {step.crew}, but {unit_type.code} at its maximum of"
            f" {unit_type.max_gross.quantity} takes {needed}",
            suggestion=f"write crew: {needed}",
            against=moves.place,
            because="the figures the crew is computed from",
            unit=step.unit,
        )


def _too_heavy(work: Work, step: Push, moves: HandMoves, unit_type: UnitType, doing: str) -> bool:
    """Whether the type is heavier than may be pushed; found once for each unit."""
    most = moves.max_mass
    if most is None or unit_type.max_gross.quantity <= most.quantity:
        return False
    if not work.excused(Sort.HANDS, step.unit, ""):
        work.find(
            "hand-move-forbidden",
            f"{doing} by hand, but {unit_type.code} may weigh {unit_type.max_gross.quantity},"
            f" and no more than {most.quantity} may be pushed",
            suggestion="drive the unit",
            against=most.place,
            because="the most that may be pushed",
            unit=step.unit,
        )
        work.doubt(Sort.HANDS, step.unit)
    return True
