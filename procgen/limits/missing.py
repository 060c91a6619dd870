"""What a position may carry with restraints of its own out of service (limits.md, section 3)."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace

from procgen.limits.positions import position_cell
from procgen.model.hold import Hold, Position
from procgen.model.unit import UnitType
from procgen.results.limits import LimitCell
from procgen.results.missing import MissingCell, MissingTable


def missing_table(
    hold: Hold, unit_types: Mapping[str, UnitType], pairs: Collection[frozenset[str]] = ()
) -> MissingTable:
    """Every position with every unit type it takes, with each of its restraints out, one at a time, then
    with the pairs of them that the hold allows to be out together.
    """
    cells = (
        missing_cell(hold, position, unit_type, out)
        for position in hold.positions.values()
        for unit_type in unit_types.values()
        if position_cell(hold, position, unit_type).governing is not None
        for out in _outs(position, pairs)
    )
    return MissingTable(hold.name, tuple(cells))


def missing_cell(hold: Hold, position: Position, unit_type: UnitType, out: tuple[str, ...]) -> MissingCell:
    """One position and type with some restraints out: they hold nothing, all else is as before."""
    left = tuple(name for name in position.held_by if name not in out)
    whole = _whole(hold, position, unit_type)
    if left == tuple(position.held_by):
        return MissingCell(out, whole, whole)
    return MissingCell(out, whole, position_cell(hold, replace(position, held_by=left), unit_type))


def _whole(hold: Hold, position: Position, unit_type: UnitType) -> LimitCell:
    """The cell with everything in service: asked for anew with every item that fails."""
    known = hold.once(_cells)
    key = (position.name, unit_type.code)
    if key not in known or known[key][0] is not position or known[key][1] is not unit_type:
        known[key] = (position, unit_type, position_cell(hold, position, unit_type))
    return known[key][2]


def _cells(_: Hold) -> dict[tuple[str, str], tuple[Position, UnitType, LimitCell]]:
    return {}


def left_cell(hold: Hold, position: Position, unit_type: UnitType, out: Collection[str]) -> MissingCell:
    """The same with whatever is out of service anywhere in the hold; what does not hold this position does
    not count. More of its restraints than one, or than a pair that the hold allows, leave it not usable.
    """
    mine = tuple(name for name in dict.fromkeys(position.held_by) if name in out)
    cell = missing_cell(hold, position, unit_type, mine)
    allowed = len(mine) < 2 or frozenset(mine) in {frozenset(pair) for pair in hold.out_together}
    if allowed or cell.cell.governing is None:
        return cell
    titles = " and ".join(hold.restraints[name].title for name in mine)
    refused = (f"the hold does not allow {titles} to be out of service together",)
    return replace(cell, cell=LimitCell(position.name, unit_type.code, (), refused))


def _outs(position: Position, pairs: Collection[frozenset[str]]) -> list[tuple[str, ...]]:
    """Single restraints first, then pairs, in the order in which the position names them."""
    names = list(dict.fromkeys(position.held_by))
    singles = [(name,) for name in names]
    both = [(one, other) for i, one in enumerate(names) for other in names[i + 1 :]]
    return [*singles, *(pair for pair in both if frozenset(pair) in pairs)]
