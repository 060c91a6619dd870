"""The out-of-service matrix in two versions: a difference for each item, failure and operation."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator, Mapping, Set
from dataclasses import replace

from procgen.diff.cell_changes import Change, change_of
from procgen.diff.cell_words import ToldCell, said_of
from procgen.diff.derived import Derived, as_they_stood, texts_of
from procgen.diff.walk import At, make
from procgen.model.words import Operation
from procgen.results.difference import Anchor, Difference, DifferenceClass, DifferenceKind
from procgen.results.page import HoldSite, ItemAnswer, OutOfServiceGuide, PageWarning, ShortProcedure
from procgen.units import Quantity

Case = tuple[str, str, Operation]
"""An item, how it has failed, the operation."""
Cases = Mapping[Case, Mapping[str, ToldCell]]
"""For every case what is said of each position."""
Whole = Mapping[str, Mapping[str, Quantity | None]]
"""By position and unit type what may be carried with everything in service."""

InFull = tuple[Mapping[str, PageWarning], tuple[str, ...]]
"""A procedure's warnings by their hazard, and all else that it says."""


def compare_matrices(
    at: At, was: HoldSite, now: HoldSite, told_warnings: Set[str] = frozenset()
) -> Iterator[Derived]:
    """Where a version has no matrix, one difference for the whole; else one for each case that differs.

    Loosened: with an item out of service a position becomes usable, is worked in a way less grave, by fewer
    people or together with others again, may carry more, or a warning of the short procedures is gone.
    Tightened: the other way round. Anything else is changed. What only says in other words, or in smaller or
    larger limits, what the hold's data say, and what becomes of positions and items that came or went with
    them, repeats. `told_warnings` are the hazards of which the procedures of the hold show already that their
    warnings differ.
    """
    before, after = was.out_of_service, now.out_of_service
    if before is None or after is None:
        if before is not after:
            yield Derived(_whole(at, before, after))
        return
    cases = _cases(before, _whole_limits(was)), _cases(after, _whole_limits(now))
    words = {(one.item, str(one.failure)): one.words for guide in (before, after) for one in guide.items}
    for case in dict.fromkeys((*cases[1], *cases[0])):
        item, failure, operation = case
        here = at.down(f"{item}-{failure}", str(operation))
        one, other = cases[0].get(case, {}), cases[1].get(case, {})
        found = _difference(here, f"{words[item, failure]}: {operation}", one, other)
        if found is not None:
            anchor = Anchor("hold", at.hold, f"out-of-service:{item}-{failure}")
            yield replace(found, difference=replace(found.difference, anchors=(anchor,)))
    yield from _warnings(at, *cases, told_warnings)


def _warnings(at: At, was: Cases, now: Cases, told_warnings: Set[str]) -> Iterator[Derived]:
    """Each hazard of which fewer or more short procedures warn, where both versions work a cell by one."""
    given: dict[str, PageWarning] = {}
    lost: dict[str, list[Case]] = {}
    came: dict[str, list[Case]] = {}
    for case in now:
        for name, other in now[case].items():
            one = was.get(case, {}).get(name)
            if one is None or not one.procedure or not other.procedure:
                continue
            given |= {**one.warnings, **other.warnings}
            for hazards, into in (
                (one.warnings.keys() - other.warnings.keys(), lost),
                (other.warnings.keys() - one.warnings.keys(), came),
            ):
                for hazard in hazards:
                    into.setdefault(hazard, []).append(case)
    for hazard in sorted({*lost, *came}):
        where = dict.fromkeys((*lost.get(hazard, ()), *came.get(hazard, ())))
        low, high = len(set(lost.get(hazard, ()))), len(set(came.get(hazard, ())))
        difference = make(
            at.down("warnings", hazard),
            DifferenceKind.CHANGED
            if low and high
            else DifferenceKind.REMOVED
            if low
            else DifferenceKind.ADDED,
            DifferenceClass.LOOSENED if low else DifferenceClass.TIGHTENED,
            f"short procedures warn of it {'no more' if low else 'now'}",
            _in_cases(lost.get(hazard, ())) if low else None,
            _in_cases(came.get(hazard, ())) if high else None,
        )
        anchors = (Anchor("hold", at.hold, f"out-of-service:{item}-{failure}") for item, failure, _ in where)
        subject = f"the out-of-service matrix: warning “{given[hazard].title}”"
        yield Derived(
            replace(difference, subject=subject, anchors=tuple(dict.fromkeys(anchors))),
            hazard in told_warnings,
        )


def _in_cases(cases: Iterable[Case]) -> str:
    return ", ".join(dict.fromkeys(f"{item} {failure}: {operation}" for item, failure, operation in cases))


def _whole(at: At, was: OutOfServiceGuide | None, now: OutOfServiceGuide | None) -> Difference:
    kind = DifferenceKind.ADDED if was is None else DifferenceKind.REMOVED
    classed = DifferenceClass.CHANGED if was is None else DifferenceClass.LOOSENED
    why = "what each position is good for with an item out of service"
    told = make(at, kind, classed, why, _count(was), _count(now))
    return replace(told, subject="the out-of-service matrix")


def _count(guide: OutOfServiceGuide | None) -> str | None:
    if guide is None:
        return None
    cases = {
        case: {name: said_of(cell) for name, cell in told.items()} for case, told in _cases(guide, {}).items()
    }
    said = repr(([*map(repr, cases.items())], as_they_stood([*texts_of(guide.steps)])))
    digest = hashlib.sha256(said.encode("utf-8", "surrogateescape")).hexdigest()[:12]
    return f"{len(guide.items)} items out of service, {len(guide.procedures)} short procedures ({digest})"


def _whole_limits(site: HoldSite) -> Whole:
    """What each position may carry of each unit type."""
    found: dict[str, dict[str, Quantity | None]] = {}
    for cell in site.limits.cells:
        found.setdefault(cell.position, {})[cell.unit_type] = cell.limit
    return found


def _cases(guide: OutOfServiceGuide, whole: Whole) -> Cases:
    """For every case what is said of each position."""
    procedures = [_in_full(guide, one) for one in guide.procedures]
    found: dict[Case, dict[str, ToldCell]] = {}
    for item in guide.items:
        for answer in item.answers:
            told = _told(guide, answer, procedures)
            case = found.setdefault((item.item, str(item.failure), answer.operation), {})
            case |= {name: replace(told, whole=whole.get(name, {})) for name in answer.positions}
    return found


def _in_full(guide: OutOfServiceGuide, procedure: ShortProcedure) -> InFull:
    """A procedure's warnings by their hazard, and all else that it says."""
    steps = [guide.steps[number] for block in procedure.blocks for number in block.steps]
    heads = [procedure.warnings, *(block.warnings for block in procedure.blocks)]
    warnings = [guide.warnings[number] for numbers in heads for number in numbers]
    warnings += [warning for step in steps for warning in step.warnings]
    frames = [text for block in procedure.blocks for text in (block.title, block.intro)]
    said = (
        str(procedure.operation),
        *texts_of(procedure.units),
        *frames,
        *texts_of([replace(step, warnings=()) for step in steps]),
    )
    return {warning.name: warning for warning in warnings}, said


def _told(guide: OutOfServiceGuide, answer: ItemAnswer, procedures: list[InFull]) -> ToldCell:
    numbers = (answer.left_out, answer.put_in, answer.reasons, answer.only_alone)
    texts = tuple(tuple(guide.texts[number] for number in some) for some in numbers)
    warnings, said = ({}, ()) if answer.procedure is None else procedures[answer.procedure]
    return ToldCell(answer, texts, warnings, said)


def _difference(
    at: At,
    subject: str,
    was: Mapping[str, ToldCell],
    now: Mapping[str, ToldCell],
) -> Derived | None:
    """What becomes of a case; None where the same is said of every position."""
    changes = {
        name: change
        for name in dict.fromkeys((*now, *was))
        if (change := change_of(was.get(name), now.get(name))) is not None
    }
    if not changes:
        return None
    own = {name for name, change in changes.items() if not change.repeats}
    # What is only worded otherwise is left out beside what becomes of a position.
    shown = [name for name, change in changes.items() if not own or name in own or not change.worded]
    classed = min((changes[name].classed for name in shown), key=list(DifferenceClass).index)
    kind = DifferenceKind.ADDED if not was else DifferenceKind.REMOVED if not now else DifferenceKind.CHANGED
    low, high = _words(was, shown), _words(now, shown)
    told = make(at, kind, classed, _why(changes, shown, classed), low, high)
    of_limits = not own and any(not change.worded for change in changes.values())
    return Derived(replace(told, subject=subject), repeats=not own, of_limits=of_limits)


def _why(changes: Mapping[str, Change], shown: list[str], classed: DifferenceClass) -> str:
    """The reasons of the class, each with the positions that it holds for."""
    reasons: dict[str, list[str]] = {}
    for name in shown:
        if changes[name].classed is classed:
            reasons.setdefault(changes[name].why, []).append(name)
    return "; ".join(f"{', '.join(where)}: {why}" for why, where in reasons.items())


def _words(told: Mapping[str, ToldCell], names: list[str]) -> str | None:
    """What is said of some positions, those that are answered alike together."""
    groups: dict[str, list[str]] = {}
    for name in names:
        if name in told:
            groups.setdefault(said_of(told[name]), []).append(name)
    return "; ".join(f"{', '.join(where)}: {said}" for said, where in groups.items()) or None
