"""The units of a plan as they are named on the command line: those to move and those that stay aboard."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from difflib import get_close_matches

from procgen.diagnostics import ProcgenError
from procgen.model.hold import Hold
from procgen.model.step import PlannedUnit, Procedure
from procgen.model.unit import UnitType
from procgen.plan import choose_units

UnitTypes = Mapping[str, UnitType]
Units = Mapping[str, PlannedUnit]


def asked_units(
    hold: Hold, unit_types: UnitTypes, positions: Sequence[str] | None, aboard: Sequence[str]
) -> tuple[Units, Units]:
    """The units to move and those that stay, from texts `POSITION` or `POSITION=TYPE`, commas between.

    Without a type the first that fits is taken; without `positions` every position that the units aboard
    leave free. Raises `ProcgenError` with everything that is wrong.
    """
    wrong: list[str] = []
    staying = _read(hold, unit_types, aboard, wrong)
    if positions is not None:
        moving = _read(hold, unit_types, positions, wrong)
    else:
        taken = {bay for name in staying if name in hold.bays for bay in (name, *hold.overlapping(name))}
        moving = {unit.bay: "" for unit in choose_units(hold, unit_types).values() if unit.bay not in taken}
    wrong += [f"{name} is to be moved and is said to stay aboard" for name in moving if name in staying]
    if wrong:
        raise ProcgenError("; ".join(wrong))
    return _units(hold, unit_types, moving), _units(hold, unit_types, staying)


def told_apart(procedure: Procedure) -> Procedure:
    """The procedure with the positions that were asked for in its name and its title.

    It can then be saved as a station's own, beside the one that is derived for the whole hold.
    """
    moved = [unit.bay for unit in procedure.units.values()]
    staying = [unit.bay for unit in procedure.aboard.values()]
    name = "-".join([procedure.name, *moved, *(("aboard", *staying) if staying else ())])
    aboard = f"; aboard {', '.join(staying)}" if staying else ""
    return replace(procedure, name=name, title=f"{procedure.title}, {', '.join(moved)}{aboard}")


def _read(hold: Hold, unit_types: UnitTypes, texts: Sequence[str], wrong: list[str]) -> Mapping[str, str]:
    """Positions with their unit types, an empty one where none is given; what is wrong is put down."""
    found: dict[str, str] = {}
    unknown: list[str] = []
    for text in (part for written in texts for part in written.split(",") if part):
        name, equals, code = text.partition("=")
        if name not in hold.positions:
            unknown.append(name)
        elif equals and code not in unit_types:
            wrong.append(f"there is no unit type “{code}” for {name}{_near(code, unit_types, 'unit types')}")
        elif found.get(name, code) != code:
            wrong.append(f"{name} is given two unit types: name it once")
        found[name] = code
    if unknown:
        near = _near(unknown[0], hold.positions, "positions") if len(unknown) == 1 else ""
        known = near or f" (positions: {', '.join(hold.positions)})"
        wrong.append(f"{hold.name} has no position {', '.join(unknown)}{known}")
    return found


def _near(name: str, known: Mapping[str, object], what: str) -> str:
    near = get_close_matches(name, list(known), n=1)
    hint = f"; did you mean {near[0]}?" if near else ""
    return f"{hint} ({what}: {', '.join(known)})"


def _units(hold: Hold, unit_types: UnitTypes, wanted: Mapping[str, str]) -> Units:
    return {unit.name: unit for unit in _chosen(hold, unit_types, wanted)}


def _chosen(hold: Hold, unit_types: UnitTypes, wanted: Mapping[str, str]) -> Iterator[PlannedUnit]:
    for unit in choose_units(hold, unit_types, list(wanted)).values():
        code = wanted[unit.bay]
        yield PlannedUnit(unit.name, code, unit.bay, unit.place) if code else unit
