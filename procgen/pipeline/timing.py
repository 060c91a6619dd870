"""From a procedure to the work that takes time: which unit goes how far, and how fast it is driven."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise

from procgen.diagnostics import Place
from procgen.limits.times import times_table
from procgen.model.controls import Drive as DriveUnit
from procgen.model.hold import Hold
from procgen.model.station import Station
from procgen.model.step import (
    Check,
    CheckItems,
    CheckLatch,
    Close,
    Drive,
    Fit,
    Lower,
    Open,
    Present,
    Procedure,
    Push,
    Raise,
    Remove,
    Section,
    SetControl,
    Step,
    Stow,
)
from procgen.model.unit import UnitType
from procgen.model.words import OUTSIDE, Operation, SectionName, Side
from procgen.results.figures import FigureTable
from procgen.results.work import Work, WorkKind
from procgen.units import Quantity, of


def times(
    hold: Hold, unit_types: Mapping[str, UnitType], procedure: Procedure, station: Station
) -> FigureTable:
    """How long a procedure takes at a station, unit by unit."""
    return times_table(
        f"times-{procedure.name}",
        f"Time of “{procedure.title or procedure.name}” at {station.code}",
        tuple(work_of(hold, unit_types, procedure)),
        station.allowances,
    )


def work_of(hold: Hold, unit_types: Mapping[str, UnitType], procedure: Procedure) -> Iterator[Work]:
    """The work of every step that takes time, in order, with the cycle it belongs to."""
    widths = {
        name: unit_types[unit.unit_type].base.width.si
        for name, unit in {**procedure.units, **procedure.aboard}.items()
        if unit.unit_type in unit_types
    }
    for step, cycle in zip(procedure.steps, _cycles(procedure), strict=True):
        match step:
            case Open() | Close():
                yield Work(cycle, WorkKind.HAND, f"{_verb(step)} {step.target}")
            case SetControl():
                yield Work(cycle, WorkKind.HAND, f"set {step.control}")
            case Raise() | Lower() | Fit() | Remove():
                yield Work(cycle, WorkKind.HAND, f"{_verb(step)} {step.item}")
            case Check():
                yield Work(cycle, WorkKind.CHECK, step.condition)
            case CheckItems():
                yield Work(cycle, WorkKind.CHECK, "looks", len(step.items))
            case CheckLatch():
                yield Work(cycle, WorkKind.CHECK, "looks")
            case Present():
                yield Work(cycle, WorkKind.PRESENT, step.unit)
            case Drive():
                yield from _driven(hold, step, cycle, widths.get(step.unit, Fraction(0)))
            case Push():
                path = path_length(hold, step.through, widths.get(step.unit, Fraction(0)))
                yield Work(cycle, WorkKind.PUSH, step.unit, path=path)
            case Stow():
                yield Work(cycle, WorkKind.STOW, step.unit)
            case _:
                pass


def _verb(step: Step) -> str:
    return type(step).__name__.lower()


def _cycles(procedure: Procedure) -> list[str]:
    """For each step the unit or the part of the procedure it belongs to.

    Work between two units is the last one's while loading (its locks go up), the next one's while unloading.
    """
    section, found = "", []
    named: list[str | None] = []
    for step in procedure.steps:
        if isinstance(step, Section):
            section = step.name.value.replace("-", " ")
        moving = section == SectionName.MOVE_UNITS.value.replace("-", " ")
        named.append(_unit_of(step) if moving else section)
        found.append(section)
    backwards = procedure.operation is Operation.UNLOADING
    order = range(len(named) - 1, -1, -1) if backwards else range(len(named))
    last: str | None = None
    for index in order:
        last = named[index] or last
        if last is not None and found[index] == SectionName.MOVE_UNITS.value.replace("-", " "):
            found[index] = last
        elif named[index] is not None:
            last = None
    return found


def _unit_of(step: Step) -> str | None:
    return getattr(step, "unit", None)


def path_length(hold: Hold, through: Sequence[str], width: Fraction) -> Quantity:
    """How far a unit goes along its way, from middle to middle of the bays.

    Outside it stands with its edge at the edge of the floor, `width` metres wide.
    """
    hops = (_hop(hold, one, other, width) for one, other in pairwise(through))
    return of(sum(hops, Fraction(0)), "m")


def _hop(hold: Hold, one: str, other: str, width: Fraction) -> Fraction:
    if OUTSIDE in (one, other):
        bay = hold.bays[other if one == OUTSIDE else one]
        door = hold.doors.get(bay.door or "")
        floor = hold.floor.rectangle.y
        edge = floor.low.si if door is not None and door.side is Side.LEFT else floor.high.si
        return abs(edge - _middle(bay.rectangle.y.low, bay.rectangle.y.high)) + width / 2
    a, b = hold.bays[one].rectangle, hold.bays[other].rectangle
    # A unit goes along the hold or across it, never slantwise.
    along = abs(_middle(a.x.low, a.x.high) - _middle(b.x.low, b.x.high))
    across = abs(_middle(a.y.low, a.y.high) - _middle(b.y.low, b.y.high))
    return along + across


def _middle(low: Quantity, high: Quantity) -> Fraction:
    return (low.si + high.si) / 2


def _driven(hold: Hold, step: Drive, cycle: str, width: Fraction) -> Iterator[Work]:
    """A drive step, hop by hop at the speed of the slowest drive that runs; hops of one speed together."""
    runs: list[tuple[Quantity | None, str, list[str], tuple[Place, ...]]] = []
    for one, other in pairwise(step.through):
        drives = [
            drive for drive in hold.drives.values() if _runs(drive, step) and {one, other} & {*drive.under}
        ]
        unknown = [drive for drive in drives if drive.speed is None]
        speed = None if unknown or not drives else min(d.speed for d in drives if d.speed is not None)
        words = step.unit if speed is not None else ", ".join(d.title for d in unknown) or "the drive"
        if runs and runs[-1][0] == speed and runs[-1][1] == words:
            runs[-1][2].append(other)
        else:
            runs.append((speed, words, [one, other], tuple(drive.place for drive in drives)))
    for speed, words, through, places in runs:
        yield Work(
            cycle, WorkKind.DRIVE, words, path=path_length(hold, through, width), speed=speed, places=places
        )


def _runs(drive: DriveUnit, step: Drive) -> bool:
    position = step.hold.get(drive.run_by)
    return position is not None and position in drive.go.values()
