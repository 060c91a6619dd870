"""The out-of-service matrix in two versions: a difference for each item, failure and operation."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from procgen.diff.walk import At, make
from procgen.model.words import Operation
from procgen.results.difference import Anchor, Difference, DifferenceClass, DifferenceKind
from procgen.results.matrix import Answer
from procgen.results.page import ItemAnswer, LeftLimit, OutOfServiceGuide, ShortProcedure

Case = tuple[str, str, Operation]
"""An item, how it has failed, the operation."""


@dataclass(frozen=True, slots=True)
class _Told:
    """What is said of one position, by itself: texts and the procedure in full instead of by number."""

    answer: ItemAnswer
    texts: tuple[str, ...]
    warnings: frozenset[str]
    procedure: str

    @property
    def usable(self) -> bool:
        return self.answer.answers[-1] is not Answer.NOT_USABLE


def compare_matrices(
    at: At, was: OutOfServiceGuide | None, now: OutOfServiceGuide | None
) -> Iterator[Difference]:
    """Where a version has no matrix, one difference for the whole; else one for each case that differs.

    Loosened: a position becomes usable with an item out of service, may carry more then, or a warning of its
    procedure is gone. Tightened: it is usable no more or may carry less. Anything else is changed.
    """
    if was is None or now is None:
        if was is not now:
            yield _whole(at, was, now)
        return
    before, after = _cases(was), _cases(now)
    words = {(one.item, str(one.failure)): one.words for guide in (was, now) for one in guide.items}
    for case in dict.fromkeys((*after, *before)):
        one, other = before.get(case, {}), after.get(case, {})
        if one != other:
            item, failure, operation = case
            here = at.down(f"{item}-{failure}", str(operation))
            told = _difference(here, f"{words[item, failure]}: {operation}", one, other)
            yield replace(told, anchors=(Anchor("hold", at.hold, f"out-of-service:{item}-{failure}"),))


def _whole(at: At, was: OutOfServiceGuide | None, now: OutOfServiceGuide | None) -> Difference:
    kind = DifferenceKind.ADDED if was is None else DifferenceKind.REMOVED
    classed = DifferenceClass.CHANGED if was is None else DifferenceClass.LOOSENED
    why = "what each position is good for with an item out of service"
    told = make(at, kind, classed, why, _count(was), _count(now))
    return replace(told, subject="the out-of-service matrix")


def _count(guide: OutOfServiceGuide | None) -> str | None:
    if guide is None:
        return None
    digest = hashlib.sha256(repr(guide).encode("utf-8", "surrogateescape")).hexdigest()[:12]
    return f"{len(guide.items)} items out of service, {len(guide.procedures)} short procedures ({digest})"


def _cases(guide: OutOfServiceGuide) -> Mapping[Case, Mapping[str, _Told]]:
    """For every case what is said of each position."""
    procedures = [_in_full(guide, one) for one in guide.procedures]
    found: dict[Case, dict[str, _Told]] = {}
    for item in guide.items:
        for answer in item.answers:
            told = _told(guide, answer, procedures)
            case = found.setdefault((item.item, str(item.failure), answer.operation), {})
            case |= dict.fromkeys(answer.positions, told)
    return found


def _in_full(guide: OutOfServiceGuide, procedure: ShortProcedure) -> tuple[frozenset[str], str]:
    """The names of a procedure's warnings, and a hash over all that it says."""
    steps = [guide.steps[number] for block in procedure.blocks for number in block.steps]
    heads = [procedure.warnings, *(block.warnings for block in procedure.blocks)]
    warnings = [guide.warnings[number] for numbers in heads for number in numbers]
    warnings += [warning for step in steps for warning in step.warnings]
    frames = [(block.title, block.intro) for block in procedure.blocks]
    said = repr((procedure.operation, procedure.units, frames, warnings, steps))
    digest = hashlib.sha256(said.encode("utf-8", "surrogateescape")).hexdigest()[:12]
    return frozenset(warning.name for warning in warnings), digest


def _told(
    guide: OutOfServiceGuide, answer: ItemAnswer, procedures: list[tuple[frozenset[str], str]]
) -> _Told:
    numbers = (answer.left_out, answer.put_in, answer.reasons, answer.only_alone)
    texts = tuple(" ".join(guide.texts[number] for number in some) for some in numbers)
    warnings, digest = (frozenset[str](), "") if answer.procedure is None else procedures[answer.procedure]
    bare = replace(answer, positions=(), left_out=(), put_in=(), reasons=(), only_alone=(), procedure=None)
    return _Told(bare, texts, warnings, digest)


def _difference(at: At, subject: str, was: Mapping[str, _Told], now: Mapping[str, _Told]) -> Difference:
    every = dict.fromkeys((*now, *was))
    kinds = {_class(was.get(name), now.get(name)) for name in every if was.get(name) != now.get(name)}
    order = list(DifferenceClass)
    classed = min(kinds, key=order.index)
    kind = DifferenceKind.ADDED if not was else DifferenceKind.REMOVED if not now else DifferenceKind.CHANGED
    differing = [name for name in every if was.get(name) != now.get(name)]
    why = "what becomes of " + ", ".join(differing) + " is another"
    told = make(at, kind, classed, why, _words(was, differing), _words(now, differing))
    return replace(told, subject=subject)


def _class(was: _Told | None, now: _Told | None) -> DifferenceClass:
    """How the answer for one position changes; a position or an item that is new or gone is changed."""
    if was is None or now is None:
        return DifferenceClass.CHANGED
    if was.usable != now.usable:
        return DifferenceClass.LOOSENED if now.usable else DifferenceClass.TIGHTENED
    before = {limit.unit_type: limit for limit in was.answer.limits}
    after = {limit.unit_type: limit for limit in now.answer.limits}
    ways = [_limit(before.get(name), after.get(name)) for name in dict.fromkeys((*before, *after))]
    if any(way > 0 for way in ways) or (now.procedure and was.warnings - now.warnings):
        return DifferenceClass.LOOSENED
    return DifferenceClass.TIGHTENED if any(way < 0 for way in ways) else DifferenceClass.CHANGED


def _limit(was: LeftLimit | None, now: LeftLimit | None) -> int:
    """Over 0 where more may be carried with the item out of service than before, below 0 where less.

    A type that one side does not name has its whole limit there; how much that is, the other side says.
    """
    if was is None and now is None:
        return 0
    old = was.now if was is not None else now.was if now is not None else None
    new = now.now if now is not None else was.was if was is not None else None
    if old is None or new is None:
        return (new is not None) - (old is not None)
    return (new > old) - (new < old)


def _words(told: Mapping[str, _Told], names: list[str]) -> str | None:
    """What is said of some positions, those that are answered alike together."""
    groups: dict[str, list[str]] = {}
    for name in names:
        if name in told:
            groups.setdefault(_said(told[name]), []).append(name)
    return "; ".join(f"{', '.join(where)}: {said}" for said, where in groups.items()) or None


def _said(told: _Told) -> str:
    answer = told.answer
    parts = [", ".join(str(one).replace("-", " ") for one in answer.answers)]
    if answer.crew:
        parts.append(f"with {answer.crew} people")
    for limit in answer.limits:
        most = "none" if limit.now is None else f"at most {limit.now.down()} ({limit.governs})"
        parts.append(f"{limit.unit_type} {most} instead of {limit.was.down()}")
    names = ("without:", "with:", "because", "only alone:")
    parts += [f"{name} {text}" for name, text in zip(names, told.texts, strict=True) if text]
    if told.procedure:
        parts.append(f"by procedure {told.procedure}")
    return ", ".join(parts)
