"""A small hold built in Python, of which a test changes what it is about."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from procgen.model.hold import Bay, Door, Floor, Hold, Lane, LoadFactors, Position, Restraint, Wind, Zone
from procgen.model.stated import Rectangle, SourceRef, Span1, Stated
from procgen.model.unit import BaseSize, UnitType
from procgen.model.words import (
    LoadDirection,
    RatingKind,
    RestraintKind,
    RestraintState,
    Side,
    Travel,
)
from procgen.units import Dimension, Quantity, quantity

WB = SourceRef("WB", "5-1")


def length(text: str) -> Quantity:
    return quantity(text, Dimension.LENGTH)


def mass(text: str) -> Stated:
    return Stated(quantity(text, Dimension.MASS), WB)


def force(text: str) -> Stated:
    return Stated(quantity(text, Dimension.FORCE), WB)


def gees(text: str) -> Stated:
    return Stated(quantity(text, Dimension.ACCELERATION), WB)


def running(text: str) -> Stated:
    return Stated(quantity(text, Dimension.RUNNING_LOAD), WB)


def area(text: str) -> Stated:
    return Stated(quantity(text, Dimension.AREA_LOAD), WB)


def rectangle(x: tuple[str, str], y: tuple[str, str]) -> Rectangle:
    return Rectangle(Span1(length(x[0]), length(x[1])), Span1(length(y[0]), length(y[1])))


def restraint(name: str, **rating: str) -> Restraint:
    """A fixed restraint beside bay 1 with ratings by direction, as `lock("l", forward="10 kN")`."""
    return Restraint(
        name=name,
        title=name.replace("-", " "),
        kind=RestraintKind.LOCK,
        at_rest=RestraintState.RAISED,
        beside=("1",),
        fixed=True,
        rating={LoadDirection(direction): force(text) for direction, text in rating.items()},
    )


def unit_type(**changes: Any) -> UnitType:
    """A container of 1.5 m x 1.5 m, 1.0 m high, at most 1000 kg; `base` gives other sides."""
    sides = changes.pop("base", ("1.5 m", "1.5 m"))
    if isinstance(sides, BaseSize):
        base = sides
    else:
        base = BaseSize("K", length(sides[0]), length(sides[1]), SourceRef("ULD", "2"))
    given: dict[str, Any] = {
        "code": "AAA",
        "title": "container",
        "base": base,
        "height": length("1.0 m"),
        "contour": "E",
        "max_gross": mass("1000 kg"),
    }
    return UnitType(**(given | changes))


def plain_position(**changes: Any) -> Position:
    given: dict[str, Any] = {"name": "1", "held_by": ("box",), "max_mass": {"K": mass("1000 kg")}}
    return Position(**(given | changes))


def plain_floor(**changes: Any) -> Floor:
    given: dict[str, Any] = {
        "rectangle": rectangle(("10 m", "12 m"), ("-1 m", "1 m")),
        "height": length("1.2 m"),
        "surface": "roller track",
    }
    return Floor(**(given | changes))


BOX = restraint("box", forward="100 kN", aft="100 kN", left="100 kN", right="100 kN", up="100 kN")


def hold(
    *restraints: Restraint,
    position: Position | None = None,
    floor: Floor | None = None,
    factors: Mapping[str, str] | None = None,
    zones: tuple[Zone, ...] = (),
    door: tuple[str, str] = ("1.7 m", "1.1 m"),
) -> Hold:
    """One bay at one door, held on all sides by `box`, with restraints added."""
    one = position or plain_position()
    asked = {"forward": "1.5 g", "aft": "1.5 g", "left": "1.2 g", "right": "1.2 g", "up": "2.0 g"}
    stated = {LoadDirection(d): gees(text) for d, text in (asked if factors is None else factors).items()}
    bay = Bay("1", rectangle(("10.2 m", "11.8 m"), ("-0.8 m", "0.8 m")), True, "door")
    side_door = Door(
        name="door",
        title="cargo door",
        side=Side.RIGHT,
        x=Span1(length("10 m"), length("12 m")),
        clear_width=length(door[0]),
        clear_height=length(door[1]),
        sill=length("2 m"),
        wind=Wind(None, None),
        close_needs={},
    )
    return Hold(
        name="ONE",
        title="One bay",
        aircraft="AUK-1",
        demonstration=True,
        sources={},
        floor=floor or plain_floor(),
        load_factors=LoadFactors(RatingKind.LIMIT, stated),
        doors={"door": side_door},
        bays={"1": bay},
        lanes=(Lane(Travel.IN, ("outside", "1")),),
        controls={},
        panels={},
        power=None,
        drives={},
        restraints={item.name: item for item in (BOX, *restraints)},
        positions={"1": one},
        zones={zone.name: zone for zone in zones},
    )
