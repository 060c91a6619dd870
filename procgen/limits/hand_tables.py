"""The crews that move the units of a hold by hand, and what a crew may move (limits.md, section 7)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from procgen.diagnostics import NOWHERE
from procgen.limits.figuring import least_of, whence
from procgen.limits.fits import unit_fits
from procgen.limits.handmoves import LEAST_CREW, crew_limits, hand_move, pulling_limits
from procgen.model.hand_moves import HandMoves
from procgen.model.hold import Hold
from procgen.model.stated import Stated
from procgen.model.unit import UnitType
from procgen.results.figures import Figure, FigureRow, FigureTable, Other
from procgen.results.hand_move import ADDING_UP, PULLED, HandMove, Push
from procgen.units import Quantity

CREWS = (2, 3, 4, 6, 8)
"""The crews that the table of what a crew may move lists."""
_PHASES = {"starting": "to start it", "moving": "to keep it moving"}
_FORBIDDEN = "The hold does not allow units to be moved by hand."


def hand_moves_table(
    hold: Hold, unit_types: Mapping[str, UnitType], masses: Sequence[Quantity] = ()
) -> FigureTable:
    """The crew for each unit type that a position of the hold takes, empty and as heavy as it may be; or for
    each of `masses` instead.
    """
    rows = [_crew_row(hold.hand_moves, labels, mass) for labels, mass in _asked(hold, unit_types, masses)]
    return FigureTable(
        name="hand-moves",
        title="Crew to move a unit by hand",
        heads=("unit", "mass"),
        columns=("crew", *_PHASES.values()),
        rows=tuple(rows) if hold.hand_moves is not None or masses else (),
        remarks=(ADDING_UP,) if hold.hand_moves is not None else (_FORBIDDEN,),
    )


def crew_table(hold: Hold) -> FigureTable:
    """The most that crews of several sizes may move by hand; no rows where the hold allows no hand moves."""
    leave = hold.hand_moves
    return FigureTable(
        name="hand-crews",
        title="The most that a crew may move by hand",
        heads=("crew",),
        columns=("at most",),
        rows=tuple(_most_row(leave, crew) for crew in CREWS) if leave is not None else (),
        remarks=(ADDING_UP,) if leave is not None else (_FORBIDDEN,),
    )


def pulling_table(hold: Hold) -> FigureTable | None:
    """The most that may be pulled with each piece of pulling gear; None where the hold has none."""
    leave = hold.hand_moves
    if leave is None or not leave.gear:
        return None
    return FigureTable(
        name="hand-pulling",
        title="The most that may be pulled with gear",
        heads=("gear", "length"),
        columns=("at most",),
        rows=tuple(
            FigureRow((gear.title, str(gear.length)), (least_of(pulling_limits(leave, gear)),))
            for gear in leave.gear.values()
        ),
        remarks=(PULLED,),
    )


def _asked(
    hold: Hold, unit_types: Mapping[str, UnitType], masses: Sequence[Quantity]
) -> list[tuple[str, Quantity]]:
    if masses:
        return [("a unit", mass) for mass in masses]
    found: list[tuple[str, Quantity]] = []
    for unit_type in unit_types.values():
        if any(not unit_fits(hold, name, unit_type) for name in hold.positions) and not unit_type.loose:
            if unit_type.tare is not None:
                found.append((f"{unit_type.code} empty", unit_type.tare.quantity))
            found.append((f"{unit_type.code} at its maximum", unit_type.max_gross.quantity))
    return found


def _crew_row(leave: HandMoves | None, label: str, mass: Quantity) -> FigureRow:
    move = hand_move(leave, mass)
    return FigureRow(
        labels=(label, str(mass)),
        figures=(_crew(leave, move), *(_force(leave, move, phase) for phase in _PHASES)),
    )


def _crew(leave: HandMoves | None, move: HandMove) -> Figure:
    governing = move.governing
    if leave is None or move.crew is None or governing is None:
        cap = leave.max_mass if leave is not None else None
        sources, places = whence([cap] if cap else [], leave.place if leave else NOWHERE)
        return Figure(counted="people", demand=True, reasons=move.reasons, sources=sources, places=places)
    few = governing.people < LEAST_CREW
    sources, places = whence(_stated(leave, governing.phase), leave.place)
    return Figure(
        count=move.crew,
        counted="people",
        demand=True,
        governs="never under two" if few else _PHASES[governing.phase],
        reckoning=f"{governing.reckoning}: {governing.people}" + (", never under two" if few else ""),
        others=tuple(_other(leave, push) for push in move.phases if push is not governing or few),
        sources=sources,
        places=places,
    )


def _other(leave: HandMoves, push: Push) -> Other:
    sources, places = whence(_stated(leave, push.phase), leave.place)
    return Other(_PHASES[push.phase], f"{push.people} people", push.reckoning, sources, places)


def _force(leave: HandMoves | None, move: HandMove, phase: str) -> Figure:
    push = next((push for push in move.phases if push.phase == phase), None)
    if push is None or leave is None:
        return Figure(demand=True, reasons=move.reasons)
    sources, places = whence(_stated(leave, phase), leave.place)
    return Figure(number=push.force, demand=True, reckoning=push.reckoning, sources=sources, places=places)


def _stated(leave: HandMoves, phase: str) -> list[Stated]:
    if phase == "starting":
        return [leave.resistance_starting, leave.slope, leave.force_starting]
    return [leave.resistance_moving, leave.slope, leave.force_moving]


def _most_row(leave: HandMoves, crew: int) -> FigureRow:
    return FigureRow((f"{crew} people",), (least_of(crew_limits(leave, crew)),))
