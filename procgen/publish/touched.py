"""Which items a step has to do with, so that a card can lead from the step to what to do without them."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence

from procgen.model.hold import Hold
from procgen.model.step import (
    CheckItems,
    CheckLatch,
    Close,
    Drive,
    Fit,
    Lower,
    Open,
    Push,
    Raise,
    Remove,
    SetControl,
    Step,
    Stow,
)
from procgen.model.words import POWER
from procgen.results.page import HoldSite


def touched(hold: HoldSite, step: Step | None) -> tuple[str, ...]:
    """The items that a step has to do with and that can be out of service, in the order of the matrix."""
    if hold.out_of_service is None or step is None:
        return ()
    names = set(_names(hold.hold, step))
    return tuple(dict.fromkeys(one.item for one in hold.out_of_service.items if one.item in names))


def _names(hold: Hold, step: Step) -> Iterator[str]:
    match step:
        case Raise(item=name) | Lower(item=name) | Fit(item=name) | Remove(item=name):
            yield name
        case CheckItems(items=names):
            yield from names
        case Open(target=name) | Close(target=name) | CheckLatch(door=name):
            yield name
        case SetControl(control=name):
            yield name
            if hold.power is not None and name == hold.power.switch:
                yield POWER
        case Drive() | Push():
            yield from step.hold
            yield from _on_the_way(hold, step.through)
            if isinstance(step, Drive):
                yield POWER
                yield from (d.name for d in hold.drives.values() if set(d.under).intersection(step.through))
        case Stow():
            yield from _on_the_way(hold, step.through)


def _on_the_way(hold: Hold, through: Sequence[str]) -> Iterator[str]:
    """The restraints that stand between two places of a way, or guide a move of it."""
    hops = list(itertools.pairwise(through))
    for item in hold.restraints.values():
        sides = item.between or ()
        if any(set(sides) == set(hop) or hop in item.guides for hop in hops):
            yield item.name
