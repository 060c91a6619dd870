"""What to do when something goes wrong half way, in two versions: one difference for each guide."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from procgen.diff.walk import At, make
from procgen.results.difference import Anchor, Difference, DifferenceClass, DifferenceKind
from procgen.results.page import PageWarning, RecoveryGuide
from procgen.results.recovery import Outcome

Moment = tuple[str, int, tuple[str, ...]]
"""A mishap, the number of the step, where the unit stands."""


def compare_guides(
    at: At, was: Sequence[RecoveryGuide], now: Sequence[RecoveryGuide]
) -> Iterator[Difference]:
    """Each guide that is new, gone or says something else, with how many answers do.

    It is loosened where a guide is gone, where a way is shown at a moment at which somebody was to be called,
    and where a warning is gone: the rest is for a reviewer to look at.
    """
    before, after = ({guide.name: guide for guide in guides} for guides in (was, now))
    for name in dict.fromkeys((*after, *before)):
        one, other = before.get(name), after.get(name)
        if one == other:
            continue
        kind = (
            DifferenceKind.ADDED
            if one is None
            else DifferenceKind.REMOVED
            if other is None
            else DifferenceKind.CHANGED
        )
        told = make(
            at.down(name),
            kind,
            _class(one, other),
            "the ways out of mishaps are others",
            _told(one),
            _told(other),
        )
        yield replace(
            told,
            subject=f"{name}: what to do when something goes wrong half way",
            page=name,
            anchors=(Anchor("procedure", name, "recovery"),),
        )


def _class(was: RecoveryGuide | None, now: RecoveryGuide | None) -> DifferenceClass:
    if now is None:
        return DifferenceClass.LOOSENED
    if was is None:
        return DifferenceClass.CHANGED
    calls, ways = _answers(was), _answers(now)
    ventured = any(is_call and not ways.get(moment, True) for moment, is_call in calls.items())
    lost = {warning.name for warning in _warned(was)} - {warning.name for warning in _warned(now)}
    return DifferenceClass.LOOSENED if ventured or lost else DifferenceClass.CHANGED


def _warned(guide: RecoveryGuide) -> list[PageWarning]:
    return [*guide.warnings, *(warning for step in guide.steps for warning in step.warnings)]


def _answers(guide: RecoveryGuide) -> Mapping[Moment, bool]:
    """For every moment whether somebody is called, or nobody goes in yet."""
    held = (Outcome.CALL, Outcome.LATER)
    return {
        (str(case.mishap), step, places): guide.ways[case.way].outcome in held
        for case in guide.cases
        for step in range(case.first, case.last + 1)
        for places in case.places or ((),)
    }


def _told(guide: RecoveryGuide | None) -> str | None:
    """How many answers there are, and a sum over all that is said, by which any change shows."""
    if guide is None:
        return None
    answers = _answers(guide)
    digest = hashlib.sha256(repr(guide).encode("utf-8", "surrogateescape")).hexdigest()
    calls = sum(answers.values())
    how_many = f"{len(answers)} answers, {calls} of them to call or to wait, in {len(guide.ways)} ways"
    return f"{how_many} ({digest[:12]})"
