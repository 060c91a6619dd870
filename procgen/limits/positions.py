"""What each position may carry of each unit type (limits.md, section 1)."""

from __future__ import annotations

from collections.abc import Mapping

from procgen.limits.candidates import candidates, unrestrained
from procgen.limits.fits import unit_fits
from procgen.model.hold import Hold, Position
from procgen.model.unit import UnitType
from procgen.results.limits import LimitCell, LimitTable


def position_table(hold: Hold, unit_types: Mapping[str, UnitType]) -> LimitTable:
    """Every position with every unit type, in the order of their descriptions."""
    cells = (
        position_cell(hold, position, unit_type)
        for position in hold.positions.values()
        for unit_type in unit_types.values()
    )
    return LimitTable(hold.name, tuple(cells))


def position_cell(hold: Hold, position: Position, unit_type: UnitType) -> LimitCell:
    """One cell: the candidates with the least first, or the reasons why the type is not acceptable."""
    reasons = (*unit_fits(hold, position.name, unit_type), *unrestrained(hold, position))
    found = () if reasons else candidates(hold, position, unit_type)
    return LimitCell(position.name, unit_type.code, found, reasons)
