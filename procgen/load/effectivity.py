"""The reader of an effectivity: which aircraft of a type something is written for."""

from __future__ import annotations

from procgen.load.fleet import ToldApart
from procgen.load.node import Node
from procgen.model.effectivity import Effectivity


def effectivity(node: Node, known: ToldApart | None, whose: str = "of this aircraft type") -> Effectivity:
    """The effectivity; `known` names what may be named, `whose` says of what; None where nobody can know."""
    return Effectivity(
        configurations=node["configurations"].references(
            f"configuration {whose}", None if known is None else known.configurations
        ),
        registrations=node["registrations"].references(
            f"registration {whose}", None if known is None else known.registrations
        ),
        place=node.place,
    )
