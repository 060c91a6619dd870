"""The steps of a page by what they do, and which step of one page is which of the other."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, fields

from procgen.model import step as steps
from procgen.results.page import PageBlock, PageStep, ProcedurePage

_OBJECTS = ("item", "target", "control", "condition", "what")
"""Fields of a step of which one says what it is done to."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A step on its page. `part` is its block: the bay of a cycle, else the block's kind.

    `verb` and `thing` say what it does to what; `key` is the three of them, counted where they come again.
    """

    key: str
    part: str
    verb: str
    thing: str
    step: PageStep


def part_names(page: ProcedurePage) -> list[str]:
    """A name for each block that stays the same when others come and go."""
    bays = {unit: bay for unit, _, bay in page.units}
    result: list[str] = []
    seen: Counter[str] = Counter()
    for block in page.blocks:
        name = f"bay-{block.bay or bays.get(block.unit, block.unit)}" if block.unit else block.kind
        seen[name] += 1
        result.append(name if seen[name] == 1 else f"{name}.{seen[name]}")
    return result


def placed_steps(page: ProcedurePage) -> list[Placed]:
    """Every step of a page, in order."""
    bays = {unit: bay for unit, _, bay in page.units}
    seen: Counter[str] = Counter()
    found: list[Placed] = []
    for part, block in zip(part_names(page), page.blocks, strict=True):
        for step in block.steps:
            verb, thing = _verb(step), _thing(step, bays)
            key = f"{part}:{verb}:{thing}" if thing else f"{part}:{verb}"
            seen[key] += 1
            found.append(Placed(key if seen[key] == 1 else f"{key}.{seen[key]}", part, verb, thing, step))
    return found


def _verb(step: PageStep) -> str:
    return type(step.step).__name__.lower() if step.step is not None else "say"


def _thing(step: PageStep, bays: dict[str, str]) -> str:
    """What a step is done to. A unit goes by its bay: its own name is the writer's."""
    said = step.step
    if said is None or isinstance(said, steps.Note):
        return step.text
    if isinstance(said, steps.CheckItems):
        return str(said.state)
    if isinstance(said, steps.CheckLatch):
        return f"{said.door}-{said.by}"
    parts: list[str] = []
    for field in fields(said):
        held = getattr(said, field.name)
        if field.name in _OBJECTS:
            parts.append(str(held))
        elif field.name == "unit" and held:
            parts.append(f"@{bays.get(held, held)}")
        elif field.name == "position":
            parts.append(str(held))
    return "-".join(parts).replace("-@", "@")


@dataclass(frozen=True, slots=True)
class Matched:
    """The steps of two pages: pairs, and those that only one of them has, each in its page's order."""

    pairs: tuple[tuple[Placed, Placed], ...]
    gone: tuple[Placed, ...]
    new: tuple[Placed, ...]

    def behind(self, number: int) -> int:
        """The step of the newer page behind which is missing what stood behind step `number` of the older.

        It is the last step up to there that both pages have; 0 where there is none.
        """
        kept = {before.step.number: after.step.number for before, after in self.pairs}
        return next((kept[one] for one in range(number, 0, -1) if one in kept), 0)


def match(was: Sequence[Placed], now: Sequence[Placed]) -> Matched:
    """Pair steps that do the same in one part, then the same elsewhere, then a like thing in one part."""
    before, after = list(was), list(now)
    pairs: list[tuple[Placed, Placed]] = []
    ways: tuple[Callable[[Placed], str | None], ...] = (
        lambda one: one.key,
        lambda one: f"{one.verb}:{one.thing}",
        lambda one: f"{one.part}:{one.verb}" if one.verb in ("setcontrol", "note", "say") else None,
    )
    for way in ways:
        found = list(_pairs(before, after, way))
        pairs += found
        taken = {id(one) for pair in found for one in pair}
        before = [one for one in before if id(one) not in taken]
        after = [one for one in after if id(one) not in taken]
    place = {id(one): number for number, one in enumerate(now)}
    pairs.sort(key=lambda pair: place[id(pair[1])])
    return Matched(tuple(pairs), tuple(before), tuple(after))


def _pairs(
    before: Iterable[Placed], after: Iterable[Placed], way: Callable[[Placed], str | None]
) -> Iterable[tuple[Placed, Placed]]:
    waiting: dict[str, list[Placed]] = {}
    for one in before:
        key = way(one)
        if key is not None:
            waiting.setdefault(key, []).append(one)
    for other in after:
        key = way(other)
        if key is not None and waiting.get(key):
            yield waiting[key].pop(0), other


def blocks_by_part(page: ProcedurePage) -> dict[str, PageBlock]:
    """The blocks of a page by their names."""
    return dict(zip(part_names(page), page.blocks, strict=True))
