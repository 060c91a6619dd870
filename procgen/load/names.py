"""The names a hold gives: what may be referred to, and what stands twice."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from procgen.diagnostics import Place, Related
from procgen.load.log import Log
from procgen.load.node import Node
from procgen.load.words import nearest, offer, one_line
from procgen.model.words import OUTSIDE

_ITEM_GROUPS = {
    "doors": "door",
    "bays": "bay",
    "panels": "panel",
    "controls": "control",
    "drives": "drive",
    "restraints": "restraint",
}


_MAY_LACK = ("panels", "controls", "drives")


@dataclass(frozen=True, slots=True)
class HoldNames:
    """Everything in one hold that another part of its description may name.

    Names are None where nobody can know them, because the group that gives them has the wrong shape or
    may stand under a misspelt key.
    """

    bays: tuple[str, ...] | None
    doors: tuple[str, ...] | None
    panels: tuple[str, ...] | None
    restraints: tuple[str, ...] | None
    controls: tuple[str, ...] | None
    positions: tuple[str, ...] | None
    control_positions: Mapping[str, tuple[str, ...]]
    control_places: Mapping[str, Place]
    bases: tuple[str, ...] | None
    unit_types: tuple[str, ...] | None

    @property
    def places(self) -> tuple[str, ...] | None:
        """The bays, and the loader platform."""
        return None if self.bays is None else (OUTSIDE, *self.bays)

    @property
    def loads(self) -> tuple[str, ...] | None:
        """What a position's maximum may be given for: base sizes and unit types."""
        if self.bases is None or self.unit_types is None:
            return None
        return (*self.bases, *self.unit_types)


def names_of(root: Node, bases: tuple[str, ...] | None, unit_types: tuple[str, ...] | None) -> HoldNames:
    """Collect the names a hold gives, whatever else may be wrong with it."""
    controls = dict(root["controls"].items())
    sound = {name: one for name, one in controls.items() if not root.log.misshapen(one.place)}
    return HoldNames(
        bays=_keys(root, "bays"),
        doors=_keys(root, "doors"),
        panels=_keys(root, "panels"),
        restraints=_keys(root, "restraints"),
        controls=_keys(root, "controls"),
        positions=_keys(root, "positions"),
        control_positions={
            name: tuple(str(element.data) for element in one["positions"].elements())
            for name, one in sound.items()
            if not root.log.misshapen(one["positions"].place)
        },
        control_places={name: one.key for name, one in controls.items()},
        bases=bases,
        unit_types=unit_types,
    )


def _keys(root: Node, group: str) -> tuple[str, ...] | None:
    node = root[group]
    if isinstance(node.data, dict):
        return tuple(node.data)
    if not node.given and group in _MAY_LACK and not root.log.misshapen(root.place):
        return ()
    return None


def control_position(
    node: Node, names: HoldNames, control: str, position: str, *, works: bool = False, listed: str = ""
) -> None:
    """Complain of a position that the control does not have, or, where it `works` something, of its rest.

    `listed` is the key to write before the position where the description gave a list in place of a mapping.
    """
    positions = names.control_positions.get(control)
    if not positions or not position:
        return
    related = Related(names.control_places[control], "the control")
    if position not in positions:
        node.log.wrong(
            "unknown-control-position",
            f"the control “{control}” has no position “{position}”",
            node.place,
            f"write which position it is: {{{listed}{nearest(position, positions) or 'POSITION'}}}, of"
            f" {', '.join(positions[1:])}"
            if listed
            else offer(position, positions),
            related,
        )
    elif works and position == positions[0]:
        node.log.wrong(
            "works-at-rest",
            f"“{position}” is where “{control}” stands when nobody works it",
            node.place,
            f"name another of its positions ({', '.join(positions[1:])}), or put its rest position first",
            related,
        )


def check_names(root: Node) -> None:
    """Find names that stand twice in a hold: as keys of two groups, or painted on two items."""
    keys: dict[str, tuple[str, Node]] = {}
    painted: dict[str, tuple[str, Node]] = {}
    for group, kind in _ITEM_GROUPS.items():
        for name, item in root[group].items():
            if name == OUTSIDE:
                _reserved(item)
            elif name in keys:
                first_kind, first = keys[name]
                _twice(root.log, f"“{name}” is a {kind} and a {first_kind}", item.key, first.key)
            else:
                keys[name] = (kind, item)
            title = item["name"]
            if not isinstance(title.data, str) or group == "bays":
                continue
            seen = painted.setdefault(one_line(title.data).casefold(), (name, title))
            if seen[1].place != title.place:
                message = f"“{one_line(title.data)}” is the name of “{name}” and of “{seen[0]}”"
                _twice(root.log, message, title.place, seen[1].place)


def _reserved(item: Node) -> None:
    item.log.wrong(
        "reserved-name",
        f"“{OUTSIDE}” is the loader platform and known without being named",
        item.key,
        "give it another name",
    )


def _twice(log: Log, message: str, place: Place, first: Place) -> None:
    log.wrong(
        "name-used-twice",
        f"{message}; a reader could not tell them apart",
        place,
        "give one of them another name",
        Related(first, "the first one"),
    )
