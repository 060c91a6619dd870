"""The reader of restraints, and what one restraint may not say of itself."""

from __future__ import annotations

from collections.abc import Mapping

from procgen.diagnostics import Related
from procgen.load.common import Group, Sources
from procgen.load.names import HoldNames, control_position
from procgen.load.node import Node
from procgen.model.hold import Restraint
from procgen.model.stated import Stated
from procgen.model.words import OUTSIDE, LoadDirection, RestraintKind, RestraintState, Stand, Travel
from procgen.units import Dimension

_MOVED = ("moved-by", "lowered-by", "override", "returns", "reached-from", "powered", "when-vacant")
"""Keys that say that something moves the restraint."""


def restraint(name: str, node: Node, names: HoldNames, sources: Sources) -> Restraint:
    """A latch, lock, guide, rail, stop or net."""
    fixed = node["fixed"].flag()
    at_rest = RestraintState.RAISED if fixed else node["at-rest"].word(RestraintState, RestraintState.RAISED)
    _contradictions(name, node, fixed)
    return Restraint(
        name=name,
        title=node["name"].text(),
        kind=node["kind"].word(RestraintKind),
        at_rest=at_rest,
        between=_between(name, node, names),
        beside=node["beside"].references("bay", names.bays),
        stops=frozenset(node["stops"].words(Travel)),
        override=frozenset(node["override"].words(Travel)),
        by_hand=node["moved-by"].data == "hand",
        fixed=fixed,
        reached_from=node["reached-from"].word(Stand) if "reached-from" in node else None,
        lowered_by=_lowered_by(node, names),
        powered=node["powered"].flag(),
        returns_by_spring=node["returns"].data == "spring",
        guides=_guides(node["guides"], names),
        closing_state=_closing_state(node["when-vacant"], at_rest),
        rating=_rating(node, sources),
        grips=node["grips"].flag(),
        place=node.place,
    )


def _between(name: str, node: Node, names: HoldNames) -> tuple[str, str] | None:
    if "between" in node and "beside" in node:
        node.log.wrong(
            "contradicting-keys",
            f"“{name}” stands between two bays and beside bays; it can do one of the two",
            node["beside"].key,
            "delete one: “between” for one that a unit passes, “beside” for one that it stands against",
            Related(node["between"].key, "between"),
        )
    elif not _says(node, "between") and not _says(node, "beside") and not node.log.misshapen(node.place):
        node.log.wrong(
            "missing-key",
            f"“{name}” does not say where it stands",
            node.key,
            "add “between: [BAY, BAY]” where units pass it, or “beside: [BAY]” where they stand against it",
        )
    ends = node["between"].references("bay", names.places)
    if len(ends) != 2:
        return None
    if not any(_says(node, key) for key in ("stops", "guides")) and not node.log.misshapen(node.place):
        ways = "in, out" if OUTSIDE in ends else "forward, aft"
        node.log.wrong(
            "missing-key",
            f"“{name}” stands between two bays, but does not say which travel it stops",
            node["between"].key,
            f"add “stops” with the directions of the lane there, as in stops: [{ways}]",
        )
    if ends[0] == ends[1] and ends[0]:
        node.log.wrong(
            "contradicting-keys",
            f"“{name}” stands between “{ends[0]}” and itself",
            node["between"].place,
            "name the two neighbouring bays",
        )
    return (ends[1], ends[0]) if ends[1] == OUTSIDE else (ends[0], ends[1])


def _says(node: Node, key: str) -> bool:
    """Whether the key stands there, even with nothing behind it."""
    return isinstance(node.data, dict) and key in node.data


def _lowered_by(node: Node, names: HoldNames) -> Mapping[str, str]:
    lowered: dict[str, str] = {}
    for control, position in node["lowered-by"].items():
        position.refer_key(control, "control", names.controls)
        control_position(position, names, control, position.text(), works=True)
        lowered[control] = position.text()
    return lowered


def _guides(node: Node, names: HoldNames) -> tuple[tuple[str, str], ...]:
    pairs = [move.references("bay", names.places) for move in node.elements()]
    return tuple((pair[0], pair[1]) for pair in pairs if len(pair) == 2)


def _closing_state(node: Node, at_rest: RestraintState) -> RestraintState | None:
    if node.data == "either":
        return None
    return node.word(RestraintState, at_rest)


def _rating(node: Node, sources: Sources) -> Mapping[LoadDirection, Stated]:
    group, rating = Group(node, sources, node["rating"].key), {}
    for direction in LoadDirection:
        if direction.value in node["rating"]:
            rating[direction] = group.limit(node["rating"][direction.value], Dimension.FORCE)
    return rating


def _contradictions(name: str, node: Node, fixed: bool) -> None:
    if node.log.misshapen(node.place):
        return
    if fixed:
        _fixed(name, node)
        return
    by_hand = node["moved-by"].data == "hand"
    if by_hand and "reached-from" not in node:
        node.log.wrong(
            "missing-key",
            f"“{name}” is moved by hand, but does not say where the person stands",
            node["moved-by"].key,
            "add “reached-from: inside” or “reached-from: outside”",
        )
    elif "reached-from" in node and "moved-by" not in node:
        node.log.wrong(
            "contradicting-keys",
            f"“{name}” says where a person reaches it, but not that a hand moves it",
            node["reached-from"].key,
            "add “moved-by: hand”, or delete “reached-from”",
        )
    if by_hand and not any(key in node for key in ("at-rest", "returns", "lowered-by")):
        net = node["kind"].data == RestraintKind.NET.value
        node.log.wrong(
            "missing-key",
            f"“{name}” is moved by hand, but does not say how it stands when nobody has touched it",
            node["moved-by"].key,
            "add “at-rest: lowered” for a net that is removed, “at-rest: raised” for one that is fitted"
            if net
            else "add “at-rest: lowered” or “at-rest: raised”",
        )
    if not any(key in node for key in ("moved-by", "lowered-by", "override")):
        node.log.wrong(
            "nothing-moves-it",
            f"nothing moves “{name}”, and it is not fixed",
            node.key,
            "add “fixed: true”, “moved-by: hand”, “lowered-by: {CONTROL: POSITION}” or “override: […]”",
        )
    if node["powered"].data is True and "lowered-by" not in node:
        node.log.wrong(
            "contradicting-keys",
            f"“{name}” is powered, but no control lowers it",
            node["powered"].key,
            "add “lowered-by: {CONTROL: POSITION}”, or delete “powered”",
        )


def _fixed(name: str, node: Node) -> None:
    against = next((key for key in _MOVED if key in node), None)
    if against is None and node["at-rest"].data == "lowered":
        against = "at-rest"
    if against is not None:
        node.log.wrong(
            "contradicting-keys",
            f"“{name}” is fixed, so it is always raised, but “{against}” says otherwise",
            node[against].key,
            "delete one of the two",
            Related(node["fixed"].key, "fixed"),
        )
