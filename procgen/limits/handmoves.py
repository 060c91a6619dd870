"""Moving units by hand (limits.md, section 7).

The force is m g0 (c cos s + sin s), with the resistance c of the surface and the slope s of the floor. The
slope is written as a tangent; cos s is taken as 1 and sin s as the tangent, so the force is never too small.
"""

from __future__ import annotations

import math

from procgen.limits.figuring import Cap
from procgen.limits.shown import shown
from procgen.model.hand_moves import HandMoves, PullingGear
from procgen.model.stated import Stated
from procgen.results.hand_move import HandMove, Push
from procgen.units import STANDARD_GRAVITY, Quantity, of

LEAST_CREW = 2
"""Nobody pushes a unit alone (OSHA airport ramp guidance, as hazards.md cites it)."""

_TO = {"starting": "to start it", "moving": "to keep it moving"}


def push_force(mass: Quantity, resistance: Quantity, slope: Quantity) -> Quantity:
    """The force that moves a mass up the slope against the resistance of the surface, in N."""
    return of(mass.si * STANDARD_GRAVITY * (resistance.si + slope.si), "N")


def hand_move(leave: HandMoves | None, mass: Quantity) -> HandMove:
    """The crew that moves a mass by hand, or why the hold does not allow it.

    `leave` is the hold's record; without it hand moves are forbidden. The crew is the larger of the numbers
    for starting and for keeping moving, and never under two.
    """
    if leave is None:
        return HandMove(mass, (), None, ("the hold does not allow units to be moved by hand",))
    if leave.max_mass is not None and mass > leave.max_mass.quantity:
        reason = f"{mass} is above {leave.max_mass.quantity}, the most that may be moved by hand"
        return HandMove(mass, (), None, (reason,))
    if any(per_person.quantity.si <= 0 for _, _, per_person in _phases(leave)):
        return HandMove(mass, (), None, ("no force may be asked of a person",))
    phases = tuple(
        _phase(name, mass, resistance, leave.slope, per_person)
        for name, resistance, per_person in _phases(leave)
    )
    return HandMove(mass, phases, max(LEAST_CREW, *(push.people for push in phases)))


def most_by_hand(leave: HandMoves | None, crew: int) -> Quantity | None:
    """The most that a crew may move by hand, exactly, in kg; None where the hold does not allow it or the
    crew is under two. Where nothing resists, only the hold's own cap counts, and None means that it has none.
    """
    if leave is None or crew < LEAST_CREW:
        return None
    return min((cap.mass for cap in crew_limits(leave, crew)), default=None)


def crew_limits(leave: HandMoves, crew: int) -> tuple[Cap, ...]:
    """What limits the mass that a crew of at least two may move: starting, keeping moving, the hold's cap."""
    caps = []
    for phase, resistance, per_person in _phases(leave):
        against = resistance.quantity.si + leave.slope.quantity.si
        if against <= 0:
            continue
        mass = of(crew * per_person.quantity.si / (STANDARD_GRAVITY * against), "kg")
        caps.append(
            Cap(
                _TO[phase],
                mass,
                f"{crew} × {per_person.quantity} / (9.80665 m/s2 × ({resistance.quantity} +"
                f" {leave.slope.quantity})) = {shown(mass)}",
                (resistance, leave.slope, per_person),
            )
        )
    if leave.max_mass is not None:
        most = leave.max_mass.quantity
        caps.append(Cap("the hold's own cap", most, f"stated: {most}", (leave.max_mass,)))
    return tuple(caps)


def pulling_limits(leave: HandMoves, gear: PullingGear) -> tuple[Cap, ...]:
    """What limits the mass that may be pulled with gear: its rating, starting and moving, the hold's cap."""
    caps = []
    for phase, resistance, _ in _phases(leave):
        against = resistance.quantity.si + leave.slope.quantity.si
        if against > 0:
            mass = of(gear.pull.quantity.si / (STANDARD_GRAVITY * against), "kg")
            reckoning = (
                f"{gear.pull.quantity} / (9.80665 m/s2 × ({resistance.quantity} + {leave.slope.quantity}))"
                f" = {shown(mass)}"
            )
            caps.append(Cap(_TO[phase], mass, reckoning, (resistance, leave.slope, gear.pull)))
    if leave.max_mass is not None:
        most = leave.max_mass.quantity
        caps.append(Cap("the hold's own cap", most, f"stated: {most}", (leave.max_mass,)))
    return tuple(caps)


def _phases(leave: HandMoves) -> tuple[tuple[str, Stated, Stated], ...]:
    return (
        ("starting", leave.resistance_starting, leave.force_starting),
        ("moving", leave.resistance_moving, leave.force_moving),
    )


def _phase(name: str, mass: Quantity, resistance: Stated, slope: Stated, per_person: Stated) -> Push:
    force = push_force(mass, resistance.quantity, slope.quantity)
    people = math.ceil(force.si / per_person.quantity.si)
    reckoning = (
        f"{mass} × 9.80665 m/s2 × ({resistance.quantity} + {slope.quantity}) = {shown(force)}; "
        f"{per_person.quantity} a person"
    )
    return Push(name, force, per_person.quantity, people, reckoning)
