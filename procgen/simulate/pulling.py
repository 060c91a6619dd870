"""Units pulled by hand: the gear must bear the pull, and who pulls must stand out of the unit's path.

The pull is that of a push (`pushing`): F = m g0 (c + s), with the larger of the two resistances, for the
maximum gross mass of the unit's type.

Whoever pulls stands ahead of a unit. Inside the hold, that is in its path or shut in beyond it, so that a
unit is pulled only out through a door, from the platform; and there past the place where it comes to stand,
clear of the door's wall. So the gear must be as long as the way that the unit goes. A unit may stand anywhere
in its bay: the way is reckoned from the bay's far edge.
"""

from __future__ import annotations

from fractions import Fraction

from procgen.model.hand_moves import HandMoves, PullingGear
from procgen.model.hold import Door, Hold
from procgen.model.step import Push
from procgen.model.words import OUTSIDE, Side
from procgen.simulate.ledger import Sort
from procgen.simulate.names import did_you_mean
from procgen.simulate.scene import Hop
from procgen.simulate.work import Work
from procgen.units import STANDARD_GRAVITY, of


def pull_for(moves: HandMoves, mass: Fraction) -> Fraction:
    """The pull (N) that sets `mass` (kg) moving and keeps it moving."""
    resistance = max(moves.resistance_starting.quantity.si, moves.resistance_moving.quantity.si)
    return mass * STANDARD_GRAVITY * (resistance + moves.slope.quantity.si)


def way_out(hold: Hold, door: Door, bay: str) -> Fraction | None:
    """How far (m) a unit in a bay goes until it is clear of a door's wall; None where that is not known."""
    if door.wall is None:
        return None
    floor, ground = hold.floor.rectangle.y, hold.bays[bay].rectangle.y
    if door.side is Side.LEFT:
        return ground.high.si - floor.low.si + door.wall.si
    return floor.high.si - ground.low.si + door.wall.si


def check_gear(work: Work, step: Push, unit: str | None, doing: str) -> None:
    """The gear must be the hold's, and bear the pull that the unit takes at its heaviest."""
    moves = work.scene.hold.hand_moves
    if moves is None or step.gear is None:
        return  # that the hold allows no hand moves has been said
    gear = moves.gear.get(step.gear)
    if gear is None:
        work.find(
            "unknown-in-hold",
            f"{doing} with “{step.gear}”, gear which {work.scene.hold.name} does not have",
            suggestion=did_you_mean(step.gear, tuple(moves.gear), "pulling gear"),
            unit=step.unit,
        )
        return
    unit_type = work.scene.type_of(unit) if unit is not None else None
    if unit_type is None or work.ledger.in_doubt(Sort.HANDS, step.unit):
        return
    needed = pull_for(moves, unit_type.max_gross.quantity.si)
    if needed > gear.pull.quantity.si:
        work.find(
            "pull-above-rating",
            f"{doing} with the {gear.title}, but {unit_type.code} at its maximum of"
            f" {unit_type.max_gross.quantity} takes a pull of {of(needed, 'N').up(0)}, and it is rated at"
            f" {gear.pull.quantity}",
            suggestion="use gear that bears it, or push the unit",
            against=gear.pull.place,
            because="its rated pull",
            unit=step.unit,
        )


def check_stand(work: Work, step: Push, hops: tuple[Hop, ...], doing: str) -> None:
    """Who pulls must have a place out of the unit's path, within reach of the gear."""
    hold = work.scene.hold
    gear = hold.hand_moves.gear.get(step.gear or "") if hold.hand_moves is not None else None
    if gear is None or not hops:
        return
    complaint = _no_stand(work, gear, hops)
    if complaint:
        work.find(
            "nowhere-to-pull-from",
            f"{doing} {hops[0].go} with the {gear.title}, but {complaint}",
            suggestion="push the unit, or ask how it is started",
            against=gear.place,
            because=f"the {gear.title}",
            unit=step.unit,
        )


def _no_stand(work: Work, gear: PullingGear, hops: tuple[Hop, ...]) -> str:
    if hops[-1].end != OUTSIDE:
        return "whoever pulls it stands ahead of it in the hold, in its path or shut in beyond it"
    hold = work.scene.hold
    for name in work.scene.doors_at(hops[-1].at_door):
        needed = way_out(hold, hold.doors[name], hops[0].start)
        if needed is None:
            return f"nobody knows how far it goes: the {hold.doors[name].title} has no “wall”"
        if gear.length.si < needed:
            return (
                f"that is {gear.length} long, and past where the unit comes to stand takes"
                f" {of(needed, 'm').up(2)}"
            )
    return ""
