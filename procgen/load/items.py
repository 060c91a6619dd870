"""Readers of the items of a hold that people work or that run: doors, panels, controls, power, drives."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from procgen.diagnostics import Related
from procgen.load.common import Group, Sources, interval
from procgen.load.names import HoldNames, control_position
from procgen.load.node import Node
from procgen.model.controls import Control, Drive, Panel, Power
from procgen.model.hold import Door, Wind
from procgen.model.words import ControlKind, RestraintState, Side, Stand, Travel
from procgen.units import Dimension


def door(name: str, node: Node, names: HoldNames, sources: Sources) -> Door:
    """A cargo door."""
    clear, wind = node["clear"], Group(node["wind"], sources)
    return Door(
        name=name,
        title=node["name"].text(),
        side=node["side"].word(Side),
        x=interval(node["x"]),
        clear_width=clear["width"].size(Dimension.LENGTH),
        clear_height=clear["height"].size(Dimension.LENGTH),
        sill=node["sill"].size(Dimension.LENGTH),
        wind=Wind(
            wind.optional(node["wind"]["opening"], Dimension.SPEED),
            wind.optional(node["wind"]["open"], Dimension.SPEED),
        ),
        close_needs=states(node["close-needs"], names),
        wall=node["wall"].size(Dimension.LENGTH) if "wall" in node else None,
        place=node.place,
    )


def states(node: Node, names: HoldNames) -> Mapping[str, RestraintState]:
    """Restraints and the states they must be in."""
    return {
        one.refer_key(name, "restraint", names.restraints): one.word(RestraintState)
        for name, one in node.items()
    }


def panels(node: Node, names: HoldNames) -> Mapping[str, Panel]:
    """The access doors over controls; none is behind itself, not even by way of others."""
    found = {name: _panel(name, one, names) for name, one in node.items()}
    for name, one in node.items():
        over = found[name].behind
        for _ in found:
            if over is None or over == name:
                break
            over = found[over].behind if over in found else None
        if over == name:
            one.log.wrong(
                "contradicting-keys",
                f"“{name}” is behind itself, so that nobody can open it",
                one["behind"].place,
                "name the panel that is over it, or leave `behind` out",
            )
            found[name] = replace(found[name], behind=None)
    return found


def _panel(name: str, node: Node, names: HoldNames) -> Panel:
    behind = node["behind"].refer("panel", names.panels) if "behind" in node else None
    return Panel(name, node["name"].text(), node["at"].word(Stand, Stand.OUTSIDE), node.place, behind)


def control(name: str, node: Node, names: HoldNames) -> Control:
    """Something a person works."""
    hold_to_run = node["hold-to-run"].flag()
    if hold_to_run and "returns" in node:
        node.log.wrong(
            "contradicting-keys",
            f"“{name}” is held to run, and returns when the unit is clear; it can do one of the two",
            node["returns"].key,
            "keep “hold-to-run” where it springs back when let go, “returns” where it waits for the unit",
            Related(node["hold-to-run"].key, "held to run"),
        )
    positions = tuple(element.text() for element in node["positions"].elements())
    return Control(
        name=name,
        title=node["name"].text(),
        kind=node["kind"].word(ControlKind),
        positions=positions or ("rest",),
        hold_to_run=hold_to_run,
        returns_when_clear=node["returns"].data == "when-clear",
        behind=node["behind"].refer("panel", names.panels) if "behind" in node else None,
        at=node["at"].word(Stand, Stand.OUTSIDE),
        place=node.place,
    )


def power(node: Node, names: HoldNames) -> Power:
    """The power switch and its interlocks."""
    switch = node["switch"].refer("control", names.controls)
    on, off = node["on"].text(), node["off"].text()
    control_position(node["on"], names, switch, on)
    control_position(node["off"], names, switch, off)
    return Power(
        switch=switch,
        on=on,
        off=off,
        needs=states(node["needs"], names),
        interlock_moves_while_on=node["interlock-moves-while-on"].flag(True),
        place=node.place,
    )


def drive(name: str, node: Node, names: HoldNames) -> Drive:
    """Powered rollers."""
    run_by = node["run-by"].refer("control", names.controls)
    return Drive(
        name=name,
        title=node["name"].text(),
        under=node["under"].references("bay", names.bays),
        run_by=run_by,
        go=_go(node["go"], names, run_by),
        speed=node["speed"].size(Dimension.SPEED) if "speed" in node else None,
        pull=node["pull"].size(Dimension.FORCE) if "pull" in node else None,
        place=node.place,
    )


def _go(node: Node, names: HoldNames, run_by: str) -> Mapping[Travel, str]:
    go: dict[Travel, str] = {}
    if isinstance(node.data, dict):
        pairs = [(Node(key, one.key, node.log), one) for key, one in node.items()]
    else:
        pairs = [(element, element) for element in node.elements()]
    for direction, position in pairs:
        go[direction.word(Travel)] = position.text()
        listed = "" if isinstance(node.data, dict) else f"{direction.data}: "
        control_position(position, names, run_by, position.text(), works=True, listed=listed)
    return go
