"""What items out of service do to a position: whether it may still be loaded, and with how much."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from procgen.diagnostics import Finding, Related
from procgen.limits.missing import left_cell
from procgen.model.hold import Hold
from procgen.model.step import OutOfService, PlannedUnit, Procedure
from procgen.model.unit import UnitType
from procgen.model.words import Failure, Operation
from procgen.results.limits import LimitTable
from procgen.results.missing import MissingCell
from procgen.results.plan import Reason


def gone(out: Iterable[OutOfService]) -> tuple[str, ...]:
    """The restraints that hold nothing any more: stuck down, or missing."""
    return tuple(one.item for one in out if one.failure in (Failure.DOWN, Failure.MISSING))


def left_of(
    hold: Hold, unit_types: Mapping[str, UnitType], unit: PlannedUnit, out: Sequence[OutOfService]
) -> MissingCell | None:
    """What a unit's position may carry with items out of service; None where it is no position."""
    position, unit_type = hold.positions.get(unit.bay), unit_types.get(unit.unit_type)
    if position is None or unit_type is None:
        return None
    return left_cell(hold, position, unit_type, gone(out))


def left_of_all(
    hold: Hold, unit_types: Mapping[str, UnitType], procedure: Procedure
) -> tuple[MissingCell, ...]:
    """What each unit that a procedure loads may weigh, where items out of service lower its limit."""
    if procedure.operation is not Operation.LOADING:
        return ()
    cells = (left_of(hold, unit_types, unit, procedure.out_of_service) for unit in procedure.units.values())
    return tuple(cell for cell in cells if cell is not None and cell.lowered)


def left_table(hold: Hold, unit_types: Mapping[str, UnitType], out: Sequence[OutOfService]) -> LimitTable:
    """Every position with every unit type, with items out of service."""
    cells = (
        left_cell(hold, position, unit_type, gone(out)).cell
        for position in hold.positions.values()
        for unit_type in unit_types.values()
    )
    return LimitTable(hold.name, tuple(cells))


def not_held(
    hold: Hold,
    unit_types: Mapping[str, UnitType],
    units: Iterable[PlannedUnit],
    out: Sequence[OutOfService],
) -> tuple[Reason, ...]:
    """Why units may not be carried where they are meant to stand, with items out of service.

    Only what follows from these items: a position that takes a unit type with nothing out of service, and
    does not take it now.
    """
    reasons: dict[tuple[str, str], Reason] = {}
    lost = set(gone(out))
    for unit in units:
        if unit.bay not in hold.positions or not lost.intersection(hold.positions[unit.bay].held_by):
            continue
        cell = left_of(hold, unit_types, unit, out)
        if cell is None or cell.usable or cell.whole.governing is None:
            continue
        items = ", ".join(hold.restraints[name].title for name in cell.out)
        reasons[unit.bay, items] = Reason(
            f"position {unit.bay} is not usable without {items}: {cell.cell.reasons[0]}",
            hold.positions[unit.bay].place,
        )
    return tuple(reasons.values())


def unheld_units(hold: Hold, unit_types: Mapping[str, UnitType], procedure: Procedure) -> Iterator[Finding]:
    """A finding for each unit that is loaded where too little holds it, with what is out of service."""
    if procedure.operation is not Operation.LOADING:
        return
    for unit in procedure.units.values():
        for reason in not_held(hold, unit_types, [unit], procedure.out_of_service):
            related = tuple(
                Related(one.place, f"{one.item} is out of service")
                for one in procedure.out_of_service
                if one.place.file
            )
            yield Finding(
                "loaded-without-restraint",
                f"{unit.name}: {reason.message}",
                unit.place if unit.place.file else hold.place,
                suggestion="leave this position empty, or repair the item first",
                related=related,
                subject=(("hold", hold.name), ("bay", unit.bay), ("unit", unit.name)),
            )
