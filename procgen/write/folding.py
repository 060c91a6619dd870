"""Steps that repeat with other names, folded into one pattern and its turns; and back again, exactly.

Only names are folded: of units, items, controls and places. Whatever else a step says (its verb, positions
of controls, the crew, a condition, a remark) is part of its shape, and cycles of different shapes are never
folded. Nothing depends on what the names mean, so that no difference can be lost: `unfold(fold(steps))`
yields the steps, their places included.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from itertools import chain, pairwise
from typing import Any

from procgen.diagnostics import Place
from procgen.model.step import Section, Step, Warn
from procgen.model.words import SectionName
from procgen.write.cycles import cycles

Name = str | tuple[str, ...]
"""One name, or a whole way (the places that a unit passes), whose length may differ too."""

_ONE_NAME = ("unit", "item", "control")


@dataclass(frozen=True, slots=True)
class Pattern:
    """The steps of the first turn; for each name in them its column, or None if it never differs."""

    steps: tuple[Step, ...]
    columns: tuple[int | None, ...]


@dataclass(frozen=True, slots=True)
class Turn:
    """One time through a pattern: its names by column; `start` and `end` are its stretch of the steps."""

    pattern: int
    names: tuple[Name, ...]
    start: int
    end: int
    places: tuple[Place, ...]


@dataclass(frozen=True, slots=True)
class Folded:
    """Steps as they are, and turns of the patterns, in the order of the steps."""

    items: tuple[Step | Turn, ...]
    patterns: tuple[Pattern, ...]

    def turns(self) -> tuple[Turn, ...]:
        """The turns in order."""
        return tuple(item for item in self.items if isinstance(item, Turn))


def fold(steps: Sequence[Step]) -> Folded:
    """Fold the cycles of the sections that move units; a cycle that nothing repeats stays as it is.

    Turns of one pattern need not stand side by side. Warnings at the head of a cycle stay outside.
    """
    stretches = list(_stretches(steps))
    groups: dict[Hashable, list[tuple[int, int]]] = defaultdict(list)
    for start, end in stretches:
        groups[tuple(_shape(step) for step in steps[start:end])].append((start, end))
    patterns: list[Pattern] = []
    turns: dict[int, Turn] = {}
    for group in groups.values():
        if len(group) > 1:
            pattern, found = _pattern([steps[start:end] for start, end in group])
            for (start, end), names in zip(group, found, strict=True):
                places = tuple(step.place for step in steps[start:end])
                turns[start] = Turn(len(patterns), names, start, end, places)
            patterns.append(pattern)
    items: list[Step | Turn] = []
    index = 0
    while index < len(steps):
        turn = turns.get(index)
        items.append(steps[index] if turn is None else turn)
        index = index + 1 if turn is None else turn.end
    return Folded(tuple(items), tuple(patterns))


def unfold(folded: Folded) -> tuple[Step, ...]:
    """The steps that were folded."""
    return tuple(
        chain.from_iterable(
            _unfolded(folded.patterns[item.pattern], item) if isinstance(item, Turn) else (item,)
            for item in folded.items
        )
    )


def _stretches(steps: Sequence[Step]) -> Iterator[tuple[int, int]]:
    """From where to where each cycle goes, the warnings at its head left out."""
    heads = [index for index, step in enumerate(steps) if isinstance(step, Section)]
    for head, end in pairwise([*heads, len(steps)]):
        section = steps[head]
        if not isinstance(section, Section) or section.name is not SectionName.MOVE_UNITS:
            continue
        for cycle in cycles(steps, head + 1, end):
            start = cycle.start
            while start < cycle.end and isinstance(steps[start], Warn):
                start += 1
            if start < cycle.end:
                yield start, cycle.end


def _pattern(cycles_of_one_shape: Sequence[Sequence[Step]]) -> tuple[Pattern, list[tuple[Name, ...]]]:
    """What is the same in all of them, and the names of each by column."""
    named = [tuple(chain.from_iterable(_names(step) for step in cycle)) for cycle in cycles_of_one_shape]
    columns: dict[tuple[Name, ...], int] = {}
    where: list[int | None] = []
    for across in zip(*named, strict=True):
        same = all(name == across[0] for name in across)
        where.append(None if same else columns.setdefault(across, len(columns)))
    by_turn = list(zip(*columns, strict=True)) or [()] * len(named)
    return Pattern(tuple(cycles_of_one_shape[0]), tuple(where)), by_turn


def _unfolded(pattern: Pattern, turn: Turn) -> Iterator[Step]:
    columns = iter(pattern.columns)
    for step, place in zip(pattern.steps, turn.places, strict=True):
        names = [name if (column := next(columns)) is None else turn.names[column] for name in _names(step)]
        yield _renamed(step, iter(names), place)


def _names(step: Step) -> Iterator[Name]:
    """The names in a step that may differ from turn to turn, in a fixed order."""
    for name, value in _fields(step):
        if name == "through":
            yield value
        elif name == "items" or (name == "hold" and isinstance(value, Mapping)):
            yield from value
        elif name in _ONE_NAME and isinstance(value, str):
            yield value


def _shape(step: Step) -> Hashable:
    """Everything else about a step."""
    parts: list[Hashable] = [type(step).__name__]
    for name, value in _fields(step):
        if name == "items":
            parts.append(len(value))
        elif isinstance(value, Mapping):
            parts.append(tuple(value.values()))
        elif name != "through" and not (name in _ONE_NAME and isinstance(value, str)):
            parts.append(value)
    return tuple(parts)


def _renamed(step: Step, names: Iterator[Name], place: Place) -> Step:
    changed: dict[str, Any] = {"place": place}
    for name, value in _fields(step):
        if name == "items":
            changed[name] = tuple(next(names) for _ in value)
        elif isinstance(value, Mapping):
            changed[name] = {next(names): each for each in value.values()}
        elif name == "through" or (name in _ONE_NAME and isinstance(value, str)):
            changed[name] = next(names)
    return replace(step, **changed)


def _fields(step: Step) -> Iterator[tuple[str, Any]]:
    return ((field.name, getattr(step, field.name)) for field in fields(step) if field.compare)
