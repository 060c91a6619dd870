"""A number in the description of a hold is beyond what any hold has: a digit or a unit slipped."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from procgen.diagnostics import Place, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.loads import TieDown
from procgen.model.stated import Stated
from procgen.model.station import Network
from procgen.units import Quantity, of

# Wide on purpose: each leaves a factor of two or more to what is built, and a digit too many falls outside.
LENGTH_OF_HOLD = (of(1, "m"), of(80, "m"))
HEIGHT_OF_HOLD = (of(0, "m"), of(4, "m"))
WIDTH_OF_HOLD = (of(0, "m"), of(10, "m"))
SILL = (of("0.3", "m"), of(10, "m"))
WALL = (of(0, "m"), of(1, "m"))
WIND = (of(5, "kt"), of(150, "kt"))
SPEED = (of("0.01", "m/s"), of(3, "m/s"))
FORCE = (of(50, "N"), of(1000, "kN"))
ONE_PERSON = (of(10, "N"), of(1000, "N"))
GEAR = (of("0.2", "m"), of(15, "m"))
SHARE = (of(0, "%"), of(100, "%"))
FACTOR = (of("0.1", "g"), of(30, "g"))
RUNNING = (of(20, "kg/m"), of(20_000, "kg/m"))
AREA = (of(20, "kg/m2"), of(10_000, "kg/m2"))
POINT = (of(5, "kg"), of(20_000, "kg"))

Measured = tuple[str, Quantity, Place, tuple[Quantity, Quantity]]


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each number against the widest bounds that a hold of an aircraft can have."""
    for title, number, place, (low, high) in chain(_room(hold), _doors(hold), _floor(hold), _forces(hold)):
        if number < low or number > high:
            few = number < low
            yield Complaint(
                f"{title} of {number} is {'less' if few else 'more'} than any hold has ({low} to {high})",
                place,
                f"look for a digit {'lost' if few else 'too many'}, a wrong unit or a misplaced point",
            )


def _room(hold: Hold) -> Iterator[Measured]:
    floor, x, y = hold.floor, hold.floor.rectangle.x, hold.floor.rectangle.y
    yield "a length", of(x.high.si - x.low.si, "m"), floor.place.child("x"), LENGTH_OF_HOLD
    yield "a width", of(y.high.si - y.low.si, "m"), floor.place.child("y"), WIDTH_OF_HOLD
    yield "a clear height", floor.height, floor.place.child("height"), HEIGHT_OF_HOLD
    if hold.cross_section is not None:
        for index, (_, width) in enumerate(hold.cross_section.corners):
            yield "a width", width, hold.cross_section.place.child("corners", index, "width"), WIDTH_OF_HOLD


def _doors(hold: Hold) -> Iterator[Measured]:
    for door in hold.doors.values():
        yield "a sill height", door.sill, door.place.child("sill"), SILL
        if door.wall is not None:
            yield "a wall", door.wall, door.place.child("wall"), WALL
        yield from _stated("a wind limit", door.wind.opening, WIND)
        yield from _stated("a wind limit", door.wind.open, WIND)


def _floor(hold: Hold) -> Iterator[Measured]:
    floor = hold.floor
    yield from _stated("a running load", floor.running, RUNNING)
    yield from _stated("an area load", floor.area, AREA)
    yield from _stated("a load on one support", floor.point, POINT)


def _forces(hold: Hold) -> Iterator[Measured]:
    for factor in hold.load_factors.by_direction.values():
        yield from _stated("a load factor", factor, FACTOR)
    for drive in hold.drives.values():
        for title, number, key, bounds in (
            ("a speed", drive.speed, "speed", SPEED),
            ("a pull", drive.pull, "pull", FORCE),
        ):
            if number is not None:
                yield title, number, drive.place.child(key), bounds
    for rating in chain.from_iterable(item.rating.values() for item in hold.restraints.values()):
        yield from _stated("a rated load", rating, FORCE)
    if hold.tie_down is not None:
        yield from _lashing(hold.tie_down)
    by_hand = hold.hand_moves
    if by_hand is not None:
        for share in (by_hand.resistance_starting, by_hand.resistance_moving, by_hand.slope):
            yield from _stated("a share of the weight", share, SHARE)
        for force in (by_hand.force_starting, by_hand.force_moving):
            yield from _stated("the force of one person", force, ONE_PERSON)
        for gear in by_hand.gear.values():
            yield from _stated("a rated pull", gear.pull, FORCE)
            yield "the length of pulling gear", gear.length, gear.place.child("length"), GEAR


def _lashing(tie_down: TieDown) -> Iterator[Measured]:
    yield from _stated("a friction", tie_down.friction, SHARE)
    points = chain.from_iterable(point.rating.values() for point in tie_down.points.values())
    for rating in chain(points, (strap.rating for strap in tie_down.straps.values())):
        yield from _stated("a rated load", rating, FORCE)


def _stated(title: str, stated: Stated | None, bounds: tuple[Quantity, Quantity]) -> Iterator[Measured]:
    if stated is not None:
        yield title, stated.quantity, stated.place, bounds


RULE = HoldRule("number-beyond-any-hold", Severity.ERROR, check)
