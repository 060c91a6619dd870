"""Readers of positions, zones and the leave to move units by hand."""

from __future__ import annotations

from collections.abc import Mapping

from procgen.diagnostics import Related
from procgen.load.common import Group, Sources, interval
from procgen.load.names import HoldNames
from procgen.load.node import Node
from procgen.model.hand_moves import HandMoves, PullingGear
from procgen.model.hold import Position, Zone
from procgen.units import Dimension


def positions(root: Node, names: HoldNames, sources: Sources) -> Mapping[str, Position]:
    """The loading positions; they and the bays marked as positions must be the same."""
    described = {name: _position(name, one, root, names, sources) for name, one in root["positions"].items()}
    for name, bay in root["bays"].items():
        if bay["position"].data is True and name not in described and names.positions is not None:
            root.log.wrong(
                "position-not-described",
                f"bay “{name}” is a position, but “positions” does not say what holds a unit there",
                bay["position"].key,
                f"add “{name}” under “positions”, or delete “position: true”",
                Related(root["positions"].key, "the positions"),
            )
    return described


def _position(name: str, node: Node, root: Node, names: HoldNames, sources: Sources) -> Position:
    _marked(name, node, root, names)
    group = Group(node, sources, node["max"].key)
    return Position(
        name=name,
        held_by=node["held-by"].references("restraint", names.restraints),
        max_mass={
            one.refer_key(code, "base size or unit type", names.loads): group.limit(one, Dimension.MASS)
            for code, one in node["max"].items()
        },
        contours=tuple(element.text() for element in node["contours"].elements()),
        height=node["height"].size(Dimension.LENGTH) if "height" in node else None,
        place=node.place,
    )


def _marked(name: str, node: Node, root: Node, names: HoldNames) -> None:
    node.refer_key(name, "bay", names.bays)
    bay = root["bays"][name]
    unsure = node.log.misshapen(bay.place) or not isinstance(bay.data, dict)
    if bay["position"].data in (None, False) and not unsure:
        node.log.wrong(
            "position-not-marked",
            f"“{name}” is described as a position, but the bay is not marked as one",
            node.key,
            "add “position: true” to the bay, or delete the position",
            Related(bay.key, "the bay"),
        )


def zone(name: str, node: Node, names: HoldNames, sources: Sources) -> Zone:
    """Positions or a stretch of x, and what they may carry together."""
    first = next((key for key in ("combined", "running", "asymmetry", "adjacent") if key in node), "combined")
    group = Group(node, sources, node[first].key)
    if "positions" not in node and "x" not in node and not node.log.misshapen(node.place):
        node.log.wrong(
            "missing-key",
            f"zone “{name}” names neither positions nor a stretch of x",
            node.key,
            "add “positions: […]”, or “x: [FROM, TO]”",
        )
    return Zone(
        name=name,
        title=node["name"].text(name.replace("-", " ")),
        positions=node["positions"].references("position", names.positions),
        combined=group.optional(node["combined"], Dimension.MASS),
        place=node.place,
        x=interval(node["x"]) if "x" in node else None,
        running=group.optional(node["running"], Dimension.RUNNING_LOAD),
        asymmetry=group.optional(node["asymmetry"], Dimension.MASS),
        adjacent=group.optional(node["adjacent"], Dimension.MASS),
    )


def _gear(name: str, node: Node, sources: Sources) -> PullingGear:
    group = Group(node, sources)
    group.needs_source(node["length"], group.source)
    return PullingGear(
        name=name,
        title=node["name"].text(name.replace("-", " ")),
        pull=group.limit(node["pull"], Dimension.FORCE),
        length=node["length"].size(Dimension.LENGTH),
        place=node.place,
    )


def hand_moves(node: Node, sources: Sources) -> HandMoves:
    """Leave to push units by hand."""
    group = Group(node, sources)
    return HandMoves(
        resistance_starting=group.limit(node["resistance-starting"], Dimension.RATIO),
        resistance_moving=group.limit(node["resistance-moving"], Dimension.RATIO),
        slope=group.limit(node["slope"], Dimension.RATIO, zero=True),
        force_starting=group.limit(node["force-starting"], Dimension.FORCE),
        force_moving=group.limit(node["force-moving"], Dimension.FORCE),
        max_mass=group.optional(node["max-mass"], Dimension.MASS),
        place=node.place,
        gear={name: _gear(name, one, sources) for name, one in node["pulling-gear"].items()},
    )
