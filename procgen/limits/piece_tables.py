"""What one piece asks of the floor of a hold, and what it needs to stand there (limits.md, section 4)."""

from __future__ import annotations

import math
from collections.abc import Iterator

from procgen.limits.contact import bearers, contact_uses, least_area_limit, least_board
from procgen.limits.figuring import whence
from procgen.limits.fits import extent
from procgen.limits.floor_tables import SPREADING, WITH_TARE
from procgen.limits.shown import shown
from procgen.limits.zones import least_spacing
from procgen.model.hold import Floor, Hold
from procgen.model.stated import Stated
from procgen.results.figures import Figure, FigureRow, FigureTable
from procgen.results.floor_contact import FloorLimits, Piece
from procgen.results.uses import Use
from procgen.units import Quantity, of

_THICKEST = of(200, "mm")
"""A board that would have to be thicker is no way out."""


def piece_tables(hold: Hold, piece: Piece, board: Quantity | None = None) -> tuple[FigureTable, ...]:
    """Used, limit and margin of every limit of the floor that bears on a piece, and what it needs: length of
    floor, footprint, board, feet, bearers. Nothing is met where the piece is larger than the floor.

    With `board` the piece, or each of its supports, stands on a board of this thickness that reaches as far
    beyond it on every side; what it needs is still said of the piece without one.
    """
    loads = [_use_row(use) for use in _uses(hold.floor, piece, board)]
    remarks = (WITH_TARE,) if loads else ("The description states no limit of the floor for pieces.",)
    on = f", on a board of {board}" if board is not None else ""
    reaching = f"The board reaches at least {board} beyond the piece or its feet on every side."
    return (
        FigureTable(
            name="piece-loads",
            title=f"A piece of {piece.load} on the floor{on}",
            heads=("load",),
            columns=("used", "at most", "margin"),
            rows=(*_room(hold.floor, piece), *loads),
            remarks=(*remarks, *((SPREADING, reaching) if board is not None else ())),
        ),
        FigureTable(
            name="piece-needs",
            title="What the piece needs",
            heads=("need",),
            columns=("at least",),
            rows=tuple(_needs(hold.floor, piece)),
            remarks=(SPREADING, "A board's own mass is part of the tare.", *_footing(piece)),
        ),
    )


def _footing(piece: Piece) -> tuple[str, ...]:
    return ("Its feet are taken to share its load evenly.",) if piece.supports > 1 else ()


def _uses(floor: Floor, piece: Piece, board: Quantity | None) -> list[Use]:
    uses = list(contact_uses(piece, FloorLimits(floor.running, floor.area, floor.contact), board))
    if floor.point is not None:
        limit = floor.point.quantity
        used = Quantity(piece.load.si / piece.supports / limit.unit.factor, limit.unit)
        words = f"{piece.load} / {piece.supports} = {shown(used)} of {limit}"
        sources, places = whence([floor.point])
        uses.append(Use("point-load", "load on one foot", used, limit, words, sources, places))
    return uses


def _room(floor: Floor, piece: Piece) -> Iterator[FigureRow]:
    """A row for each side of the piece that is longer than the floor."""
    for word, side, room in (
        ("length along the hold", piece.length, extent(floor.rectangle.x)),
        ("width across the hold", piece.width, extent(floor.rectangle.y)),
    ):
        if side > room:
            over = Quantity((room.si - side.si) / side.unit.factor, side.unit)
            _, places = whence([], floor.place)
            yield FigureRow(
                (word,),
                (
                    Figure(number=side, demand=True, decimals=2, met=False),
                    Figure(number=room, decimals=2, reckoning=f"the floor: {room}", places=(floor.place,)),
                    Figure(number=over, decimals=2),
                ),
                places=places,
            )


def _use_row(use: Use) -> FigureRow:
    why = {"sources": use.sources, "places": use.places}
    return FigureRow(
        (use.title,),
        (
            Figure(number=use.used, demand=True, reckoning=use.reckoning, met=use.met, **why),  # type: ignore[arg-type]
            Figure(number=use.limit, reckoning=f"stated: {use.limit}", **why),  # type: ignore[arg-type]
            Figure(number=use.margin, reckoning=f"{use.limit} − {shown(use.used)}", **why),  # type: ignore[arg-type]
        ),
    )


def _needs(floor: Floor, piece: Piece) -> Iterator[FigureRow]:
    load = piece.load
    if floor.running is not None:
        limit = floor.running.quantity
        length = least_spacing(load, limit)
        yield _need(
            "length of floor along x", length, f"{load} / {limit} = {shown(length)}", floor.running, 2
        )
    if floor.area is not None:
        limit = floor.area.quantity
        least = least_area_limit(load, piece.length, piece.width, symbol=limit.unit.symbol)
        words = f"{load} / ({piece.length} × {piece.width}) = {shown(least)}"
        yield _need("area limit of the floor, for this footprint", least, words, floor.area)
    if floor.contact is not None:
        yield FigureRow(
            ("board under each foot" if piece.supports > 1 else "board",), (_board(floor.contact, piece),)
        )
    if floor.point is not None:
        feet = math.ceil(load.si / floor.point.quantity.si)
        words = f"{load} / {floor.point.quantity}, up to the next whole number"
        yield _count("feet that share its load", max(feet, 1), "feet", words, floor.point)
    if floor.line is not None:
        count = bearers(load, floor.line.quantity, piece.width)
        words = f"{load} / ({floor.line.quantity} × {piece.width}), at least two"
        title = f"bearers across the hold, each {piece.width} long"
        yield _count(title, count, "bearers", words, floor.line)


def _need(title: str, number: Quantity, reckoning: str, stated: Stated, decimals: int = 0) -> FigureRow:
    sources, places = whence([stated])
    return FigureRow(
        (title,),
        (
            Figure(
                number, demand=True, decimals=decimals, reckoning=reckoning, sources=sources, places=places
            ),
        ),
    )


def _count(title: str, count: int, word: str, reckoning: str, stated: Stated) -> FigureRow:
    sources, places = whence([stated])
    return FigureRow(
        (title,),
        (
            Figure(
                count=count, counted=word, demand=True, reckoning=reckoning, sources=sources, places=places
            ),
        ),
    )


def _board(contact: Stated, piece: Piece) -> Figure:
    board = least_board(piece, contact.quantity)
    sources, places = whence([contact])
    if board.thickness > _THICKEST:
        why = f"a board would have to be {board.thickness} thick: give the piece more or larger feet"
        return Figure(demand=True, reasons=(why,), met=False, sources=sources, places=places)
    return Figure(
        number=board.thickness,
        demand=True,
        governs="contact load",
        reckoning=f"{board.length} × {board.width} under each: {board.reckoning}"
        if piece.supports > 1
        else f"{board.length} × {board.width}: {board.reckoning}",
        sources=sources,
        places=places,
    )
