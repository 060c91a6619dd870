"""The equipment of a hold in words: one row for each restraint, control, drive and door."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from procgen.model.controls import Control, Drive, Panel, Power
from procgen.model.hold import Door, Hold, Restraint
from procgen.model.stated import SourceRef, Stated
from procgen.model.words import OUTSIDE, Travel


@dataclass(frozen=True, slots=True)
class RestraintRow:
    """A restraint; `number` is its number in the diagram."""

    number: int
    name: str
    title: str
    where: str
    stops: str
    override: str
    moved: str
    rating: str
    sources: tuple[SourceRef, ...]


@dataclass(frozen=True, slots=True)
class ControlRow:
    """A control or a panel; `element` is what change bars call it."""

    element: str
    title: str
    kind: str
    positions: str
    where: str
    worked: str


@dataclass(frozen=True, slots=True)
class DriveRow:
    """Powered rollers; `element` is what change bars call them."""

    element: str
    title: str
    under: str
    run_by: str
    speed: str
    pull: str


@dataclass(frozen=True, slots=True)
class DoorRow:
    """A door with its wind limits; `element` is what change bars call it."""

    element: str
    title: str
    clear: str
    sill: str
    opening: str
    opening_source: SourceRef | None
    left_open: str
    left_open_source: SourceRef | None
    needs: str


def restraint_rows(hold: Hold) -> tuple[RestraintRow, ...]:
    """Every restraint, numbered in the order of the description as the diagram numbers them."""
    return tuple(_restraint(hold, n, item) for n, item in enumerate(hold.restraints.values(), start=1))


def _restraint(hold: Hold, number: int, item: Restraint) -> RestraintRow:
    ratings = [f"{direction} {stated.quantity}" for direction, stated in item.rating.items()]
    return RestraintRow(
        number=number,
        name=item.name,
        title=item.title,
        where=_where(item),
        stops=_ways(item.stops),
        override=_ways(item.override),
        moved=_moved(hold, item),
        rating=", ".join(ratings),
        sources=tuple(dict.fromkeys(s.source for s in item.rating.values() if s.source is not None)),
    )


def _where(item: Restraint) -> str:
    if item.between is not None:
        first, second = item.between
        if OUTSIDE in (first, second):
            return f"at the sill of {second if first == OUTSIDE else first}"
        return f"between {first} and {second}"
    return f"beside {', '.join(item.beside)}"


def _ways(ways: frozenset[Travel]) -> str:
    return ", ".join(str(way) for way in Travel if way in ways)


def _moved(hold: Hold, item: Restraint) -> str:
    if item.fixed:
        return "fixed, always up"
    parts = []
    if item.by_hand:
        parts.append(f"by hand, from {item.reached_from}" if item.reached_from else "by hand")
    for control, position in item.lowered_by.items():
        title = hold.controls[control].title if control in hold.controls else control
        power = ", with power on" if item.powered else ""
        parts.append(f"held down by the {title} at {position}{power}")
    if item.returns_by_spring:
        parts.append("a spring raises it behind a unit")
    return "; ".join(parts)


def held_by(hold: Hold) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """For each position, the painted names of what must be up while a unit stands there."""
    return tuple(
        (
            name,
            tuple(hold.restraints[i].title if i in hold.restraints else i for i in position.held_by),
        )
        for name, position in hold.positions.items()
    )


def control_rows(hold: Hold) -> tuple[ControlRow, ...]:
    """Panels first, then every control."""
    panels = [
        ControlRow(
            f"panels:{name}",
            panel.title,
            "panel",
            "closed, open",
            _reached(hold, panel),
            "opened and closed by hand",
        )
        for name, panel in hold.panels.items()
    ]
    return (*panels, *(_control(hold, name, control) for name, control in hold.controls.items()))


def _control(hold: Hold, name: str, control: Control) -> ControlRow:
    worked = "stays where it is set"
    if control.returns_when_clear:
        worked = "held; goes back by itself when the unit is clear"
    elif control.hold_to_run:
        worked = "works only while held"
    return ControlRow(
        f"controls:{name}",
        control.title,
        str(control.kind),
        ", ".join(control.positions),
        _reached(hold, control),
        worked,
    )


def _reached(hold: Hold, thing: Control | Panel) -> str:
    panel = hold.panels.get(thing.behind) if thing.behind is not None else None
    return f"behind the {panel.title}" if panel else str(thing.at)


def drive_rows(hold: Hold) -> tuple[DriveRow, ...]:
    """Every drive."""
    return tuple(_drive(hold, name, drive) for name, drive in hold.drives.items())


def _drive(hold: Hold, name: str, drive: Drive) -> DriveRow:
    control = hold.controls.get(drive.run_by)
    ways = ", ".join(f"{travel}: {position}" for travel, position in drive.go.items())
    return DriveRow(
        f"drives:{name}",
        drive.title,
        ", ".join(drive.under),
        f"{control.title if control else drive.run_by} ({ways})",
        str(drive.speed) if drive.speed is not None else "",
        str(drive.pull) if drive.pull is not None else "",
    )


def power_words(hold: Hold) -> str:
    """The power switch and its interlock in one sentence, or nothing."""
    power: Power | None = hold.power
    if power is None:
        return ""
    switch = hold.controls[power.switch].title if power.switch in hold.controls else power.switch
    needs = _needs(hold, power.needs)
    return f"Power is on while the {switch} is at {power.on}" + (f" and {needs}." if needs else ".")


def _needs(hold: Hold, needs: Mapping[str, object]) -> str:
    titles = {name: item.title for name, item in hold.restraints.items()}
    return ", ".join(f"the {titles.get(name, name)} is {state}" for name, state in needs.items())


def door_rows(hold: Hold) -> tuple[DoorRow, ...]:
    """Every door."""
    return tuple(_door(hold, name, door) for name, door in hold.doors.items())


def _door(hold: Hold, name: str, door: Door) -> DoorRow:
    return DoorRow(
        f"doors:{name}",
        f"{door.title} ({door.side})",
        f"{door.clear_width} wide, {door.clear_height} high",
        str(door.sill),
        _wind(door.wind.opening),
        door.wind.opening.source if door.wind.opening else None,
        _wind(door.wind.open),
        door.wind.open.source if door.wind.open else None,
        _needs(hold, door.close_needs),
    )


def _wind(stated: Stated | None) -> str:
    """A wind limit in knots and km/h, each rounded down."""
    if stated is None:
        return ""
    return f"{stated.quantity} ({stated.quantity.to('km/h').down()})"
