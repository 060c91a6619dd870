"""Two versions of a document's data as one tree, from which the data with any edits made can be read."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from procgen.source.document import Data


@dataclass(frozen=True, slots=True)
class Same:
    """A value that both sides share, or that comes and goes as a whole."""

    value: Data


@dataclass(frozen=True, slots=True)
class Leaf:
    """A value that an edit replaces."""

    number: int
    was: Data
    now: Data


@dataclass(frozen=True, slots=True)
class Entry:
    """An entry of a mapping: its key on either side (None: not there), and the edit that changes that."""

    was: str | None
    now: str | None
    number: int
    node: Node


@dataclass(frozen=True, slots=True)
class Pair:
    """A mapping; `order` is the edit that changes the order of its keys, 0 where none does."""

    entries: tuple[Entry, ...]
    was: tuple[str, ...]
    now: tuple[str, ...]
    order: int


@dataclass(frozen=True, slots=True)
class Items:
    """A list: for each element the edit that brings or takes it, what it is, and which sides have it."""

    items: tuple[tuple[int, Node, bool, bool], ...]


Node = Same | Leaf | Pair | Items


def numbers_in(node: Node) -> set[int]:
    """Every edit in a tree."""
    if isinstance(node, Same):
        return set()
    if isinstance(node, Leaf):
        return {node.number}
    if isinstance(node, Items):
        inner = [{number} | numbers_in(one) for number, one, _, _ in node.items]
    else:
        inner = [{entry.number} | numbers_in(entry.node) for entry in node.entries]
        inner.append({node.order})
    return set().union(*inner) - {0}


def data_of(node: Node, chosen: Collection[int]) -> Data:
    """The older data with the chosen edits made."""
    if isinstance(node, Same):
        return node.value
    if isinstance(node, Leaf):
        return node.now if node.number in chosen else node.was
    if isinstance(node, Items):
        return [
            data_of(one, chosen)
            for number, one, before, after in node.items
            if (after if number in chosen else before) or not number
        ]
    found: dict[str, tuple[int, Data]] = {}
    reordered = node.order in chosen
    order = node.now if reordered else node.was
    for entry in node.entries:
        made = entry.number in chosen
        key = entry.now if made or (entry.was is not None and not entry.number) else entry.was
        if key is None:
            continue
        # A key that only the other side has goes to the end; the order of the rest is the side's own.
        own = entry.now if reordered else entry.was
        rank = order.index(own) if own in order else len(order)
        found[key] = (rank, data_of(entry.node, chosen))
    return {key: one for key, (_, one) in sorted(found.items(), key=lambda pair: pair[1][0])}
