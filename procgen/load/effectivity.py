"""The reader of an effectivity: which aircraft of a type something is written for."""

from __future__ import annotations

from procgen.load.fleet import ToldApart
from procgen.load.node import Node
from procgen.model.effectivity import Effectivity


def effectivity(node: Node, known: ToldApart | None) -> Effectivity:
    """The effectivity; `known` names what the type has, or is None where nobody can know."""
    return Effectivity(
        configurations=node["configurations"].references(
            "configuration of this aircraft type", None if known is None else known.configurations
        ),
        registrations=node["registrations"].references(
            "registration of this aircraft type", None if known is None else known.registrations
        ),
        place=node.place,
    )
