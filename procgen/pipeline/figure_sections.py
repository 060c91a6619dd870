"""The tables of figures of one hold, of what is asked: a piece, straps, a crew, stability, times."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from procgen.limits.floor_tables import floor_tables
from procgen.limits.hand_tables import crew_table, hand_moves_table, pulling_table
from procgen.limits.piece_tables import piece_tables
from procgen.limits.stability_tables import stability_table, verdict
from procgen.limits.tie_down_tables import ANGLES, MASSES, tie_down_table
from procgen.model.hold import Hold
from procgen.model.loads import StrapType
from procgen.model.station import Network, Station
from procgen.model.unit import UnitType
from procgen.model.words import Operation
from procgen.pipeline.aircraft import full_load, sequence
from procgen.pipeline.checking import derive
from procgen.pipeline.timing import times
from procgen.results.figures import FigureTable
from procgen.results.floor_contact import Piece
from procgen.results.plan import NoPlan
from procgen.results.sequence import NoSequence
from procgen.units import Quantity

FULL_ALONE = (
    "Every position has a unit as heavy as it may be, all lighter in proportion where several together may"
    " weigh less; the other holds are empty. “procgen sequence” orders the holds of the whole aircraft."
)


def floor_section(hold: Hold, piece: Piece | None, board: Quantity | None = None) -> tuple[FigureTable, ...]:
    """What the floor carries; or of one piece, on a board where one is given, what it asks and needs."""
    return floor_tables(hold) if piece is None else piece_tables(hold, piece, board)


def straps_table(
    hold: Hold,
    masses: Sequence[Quantity] = (),
    strap: StrapType | None = None,
    angles: Sequence[tuple[Fraction, Fraction]] = (),
) -> FigureTable:
    """The straps that masses need; with `strap` only that one, of the hold or not, at the hold's points."""
    if strap is not None and hold.tie_down is not None:
        hold = replace(hold, tie_down=replace(hold.tie_down, straps={strap.name: strap}))
    return tie_down_table(hold, masses or MASSES, (), angles or ANGLES)


def crew_tables(
    hold: Hold, unit_types: Mapping[str, UnitType], masses: Sequence[Quantity] = ()
) -> tuple[FigureTable, ...]:
    """The crew for each unit type, what crews may move and gear may pull; of given masses only the crew."""
    moves = hand_moves_table(hold, unit_types, masses)
    pulling = pulling_table(hold)
    more = () if pulling is None else (pulling,)
    return (moves,) if masses else (moves, crew_table(hold), *more)


def times_tables(network: Network, hold: Hold, stations: Sequence[Station]) -> tuple[FigureTable, ...]:
    """How long the derived procedures take at each station; an operation without a plan says so instead."""
    found: list[FigureTable] = []
    for operation in Operation:
        outcome = derive(network, hold, operation)
        if isinstance(outcome, NoPlan):
            why = tuple(reason.message for reason in outcome.reasons)
            title = f"Time of {operation} {hold.name}"
            found.append(FigureTable(f"times-{operation}", title, ("part or unit",), (), (), why))
        else:
            found += [times(hold, network.unit_types, outcome, station) for station in stations]
    return tuple(found)


def stability_tables(network: Network, hold: Hold) -> tuple[FigureTable, ...]:
    """How the aircraft stands while this hold alone is worked, full, the others empty; or why not."""
    units = full_load(network, hold)
    found = []
    for operation in Operation:
        outcome = sequence(network, network.aircraft[hold.aircraft], operation, units)
        name, title = f"stability-{operation}", f"{hold.name} alone, {operation}"
        if isinstance(outcome, NoSequence):
            why = tuple(reason.message for reason in outcome.reasons)
            found.append(FigureTable(name, title, ("step",), (), (), why))
        else:
            words = verdict(operation, outcome.order)
            remarks = (words, FULL_ALONE)
            found.append(stability_table(name, title, outcome.gear, outcome.order, remarks))
    return tuple(found)
