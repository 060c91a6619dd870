"""What the floor of a hold carries (limits.md, section 4)."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from procgen.limits.contact import spread
from procgen.limits.figuring import Cap, least_of, stated_figure
from procgen.limits.fits import extent
from procgen.limits.shown import mass_symbol, shown
from procgen.model.hold import Floor, Hold
from procgen.model.stated import Stated
from procgen.results.figures import FigureRow, FigureTable
from procgen.units import Quantity, of

FOOTPRINTS = (10, 20, 30, 40, 60, 80, 100, 120)
FEET = (2, 5, 8, 10, 15, 20, 30)
"""Sides of square footprints and feet that the tables list, in cm."""
BOARDS = (0, 20, 50)
"""Thicknesses of the boards that the tables list, in mm; 0 is none."""
SPREADING = "A board spreads a load at 45 degrees: each side grows by its thickness at both ends."
WITH_TARE = "Pallets, boards and tie-downs count as load."
_NONE = "The description states no limit of the floor for pieces."
_STATED = {
    "running": "running load, along x",
    "area": "area load, under a footprint",
    "contact": "contact load, right under a foot, skid or wheel",
    "point": "one foot, skid or wheel",
    "line": "line load, along a bearer",
}


def floor_tables(hold: Hold) -> tuple[FigureTable, ...]:
    """The limits as they are stated, then what they come to on footprints and feet of several sizes."""
    stated = tuple(
        FigureRow((words,), (stated_figure(limit),))
        for key, words in _STATED.items()
        if (limit := getattr(hold.floor, key)) is not None
    )
    tables = [
        FigureTable(
            "floor-limits", "What the floor carries", ("load",), ("at most",), stated, _or_none(stated)
        )
    ]
    for name, title, head, sides, caps in (
        (
            "floor-footprints",
            "The most on a square footprint",
            "side of the footprint",
            FOOTPRINTS,
            _on_footprint,
        ),
        ("floor-feet", "The most on one square foot, skid or wheel", "side of its face", FEET, _on_foot),
    ):
        if any(caps(hold.floor, of(1, "m"))):
            tables.append(_squares(hold.floor, name, title, head, sides, caps))
    return tuple(tables)


def _or_none(rows: tuple[FigureRow, ...]) -> tuple[str, ...]:
    return () if rows else (_NONE,)


def _squares(
    floor: Floor,
    name: str,
    title: str,
    head: str,
    sides: tuple[int, ...],
    caps: Callable[[Floor, Quantity], list[Cap]],
) -> FigureTable:
    widest = min(extent(floor.rectangle.x), extent(floor.rectangle.y))
    rows = []
    for side in (of(centimetres, "cm") for centimetres in sides):
        if side <= widest:
            grown = (spread(side, side, of(board, "mm"))[0] for board in BOARDS)
            rows.append(FigureRow((str(side),), tuple(least_of(caps(floor, one)) for one in grown)))
    columns = tuple(f"on a board of {board} mm" if board else "without a board" for board in BOARDS)
    return FigureTable(name, title, (head,), columns, tuple(rows), (SPREADING, WITH_TARE))


def _on_footprint(floor: Floor, side: Quantity) -> list[Cap]:
    rows = (
        ("area load", floor.area, side.si * side.si, f"{side} × {side}"),
        ("running load", floor.running, side.si, str(side)),
        ("contact load", floor.contact, side.si * side.si, f"{side} × {side}"),
    )
    return [_cap(title, limit, size, words) for title, limit, size, words in rows if limit is not None]


def _on_foot(floor: Floor, side: Quantity) -> list[Cap]:
    found = []
    if floor.contact is not None:
        found.append(_cap("contact load", floor.contact, side.si * side.si, f"{side} × {side}"))
    if floor.point is not None:
        most = floor.point.quantity
        found.append(Cap("the most on one foot", most, f"stated: {most}", (floor.point,)))
    return found


def _cap(title: str, limit: Stated, size: Fraction, words: str) -> Cap:
    mass = of(limit.quantity.si * size, "kg").to(mass_symbol(limit.quantity))
    return Cap(title, mass, f"{limit.quantity} × {words} = {shown(mass)}", (limit,))
