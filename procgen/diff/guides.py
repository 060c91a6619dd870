"""What to do when something goes wrong half way, in two versions: one difference for each guide."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping, Set
from dataclasses import dataclass, replace

from procgen.diff.derived import Derived, as_they_stood, say_the_same, texts_of
from procgen.diff.procedures_of_hold import renamed_procedures
from procgen.diff.stepping import match, placed_steps
from procgen.diff.walk import At, make
from procgen.results.difference import Anchor, Difference, DifferenceClass, DifferenceKind
from procgen.results.page import (
    HoldSite,
    PageWarning,
    ProcedurePage,
    RecoveryCase,
    RecoveryGuide,
    RecoveryWay,
)
from procgen.results.recovery import Outcome, mishap_words

_LOOSER, _STRICTER, _OTHER = DifferenceClass.LOOSENED, DifferenceClass.TIGHTENED, DifferenceClass.CHANGED
_HELD = (Outcome.CALL, Outcome.LATER)
_NOTHING = "nothing is said"

Moment = tuple[str, int, tuple[str, ...]]
"""A mishap in words, the number of the step, where the unit stands."""


@dataclass(frozen=True, slots=True)
class _Way:
    """What is said at a moment: what it comes to, and everything in words."""

    outcome: Outcome
    texts: tuple[str, ...]
    until: int = 0

    @property
    def held(self) -> bool:
        """Whether somebody is called, or nobody goes in yet."""
        return self.outcome in _HELD


@dataclass(frozen=True, slots=True)
class _Sides:
    """A guide in two versions, with its page in both; `steps` has the newer page's for each of the older."""

    was: RecoveryGuide
    now: RecoveryGuide
    pages: tuple[ProcedurePage, ProcedurePage] | None
    steps: Mapping[int, int]
    before: Mapping[Moment, _Way]
    after: Mapping[Moment, _Way]


def compare_guides(
    at: At, was: HoldSite, now: HoldSite, told_warnings: Set[str] = frozenset()
) -> Iterator[Derived]:
    """Each guide that is new, gone or says something else: at which moments another thing is to be done.

    Loosened: a way is shown where somebody was to be called, nothing is said where something was, a warning
    or a guide is gone. Tightened: somebody is to be called where there was a way, or a warning came. What
    stands at steps that came or went with the page, or is only worded or numbered otherwise, repeats.
    `told_warnings` are the hazards of which the procedures show already that their warnings differ.
    """
    names = renamed_procedures(was, now)
    before = {names.get(guide.name, guide.name): guide for guide in was.recoveries}
    after = {guide.name: guide for guide in now.recoveries}
    old_pages = {names.get(page.name, page.name): page for page in was.pages}
    new_pages = {page.name: page for page in now.pages}
    for name in dict.fromkeys((*after, *before)):
        one, other = before.get(name), after.get(name)
        here = at.down(name)
        if one is None or other is None:
            told = _came_or_went(here, one, other, now)
            yield Derived(_on(told, name), repeats=(name in old_pages) != (name in new_pages))
            continue
        low, high = old_pages.get(name), new_pages.get(name)
        pages = (low, high) if low is not None and high is not None else None
        found = _changed(here, _sides(one, other, pages, now), now, told_warnings)
        if found is not None:
            yield replace(found, difference=_on(found.difference, name))


def _came_or_went(at: At, was: RecoveryGuide | None, now: RecoveryGuide | None, site: HoldSite) -> Difference:
    why = "whoever stands half way is told nothing any more" if now is None else "the ways out are told"
    kind = DifferenceKind.REMOVED if now is None else DifferenceKind.ADDED
    low, high = (None if one is None else _summary(one, site) for one in (was, now))
    return make(at, kind, _LOOSER if now is None else _OTHER, why, low, high)


def _on(told: Difference, name: str) -> Difference:
    return replace(
        told,
        subject=f"{name}: what to do when something goes wrong half way",
        page=name,
        anchors=(Anchor("procedure", name, "recovery"),),
    )


def _sides(
    was: RecoveryGuide,
    now: RecoveryGuide,
    pages: tuple[ProcedurePage, ProcedurePage] | None,
    site: HoldSite,
) -> _Sides:
    if pages is None:
        numbers = {number for guide in (was, now) for case in guide.cases for number in _numbers(case)}
        steps = {number: number for number in numbers}
    else:
        pairs = match(placed_steps(pages[0]), placed_steps(pages[1])).pairs
        steps = {before.step.number: after.step.number for before, after in pairs}
    before = {
        (mishap, steps[step], places): replace(way, until=steps.get(way.until, way.until))
        for (mishap, step, places), way in _answers(was, site).items()
        if step in steps
    }
    kept = set(steps.values())
    after = {moment: way for moment, way in _answers(now, site).items() if moment[1] in kept}
    return _Sides(was, now, pages, steps, before, after)


def _numbers(case: RecoveryCase) -> range:
    return range(case.first, case.last + 1)


def _answers(guide: RecoveryGuide, site: HoldSite) -> Mapping[Moment, _Way]:
    """What is said at every moment."""
    ways = [_said(guide, way) for way in guide.ways]
    return {
        (mishap_words(case.mishap, site.hold), step, places): _Way(
            guide.ways[case.way].outcome,
            (*ways[case.way], *(guide.reasons[number] for number in case.why)),
            case.until,
        )
        for case in guide.cases
        for step in _numbers(case)
        for places in case.places or ((),)
    }


def _said(guide: RecoveryGuide, way: RecoveryWay) -> tuple[str, ...]:
    steps = [guide.steps[number] for number in (*way.stop, *way.then)]
    return way.title, *texts_of([guide.warnings[number] for number in way.warnings]), *texts_of(steps)


def _changed(at: At, sides: _Sides, site: HoldSite, told_warnings: Set[str]) -> Derived | None:
    """The difference between two guides; None where they say the same."""
    moments = {
        moment: classed
        for moment in dict.fromkeys((*sides.after, *sides.before))
        if (classed := _class(moment, sides)) is not None
    }
    every = _warnings_apart(sides)
    own = tuple([title for name, title in side.items() if name not in told_warnings] for side in every)
    repeats = not (moments or any(own))
    # Beside what is its own, a guide does not say again which warnings the procedures lost or gained.
    lost, came = (list(side.values()) for side in every) if repeats else own
    if not (moments or lost or came or not _same_words(sides)):
        return None
    classes = {*moments.values(), *([_LOOSER] if lost else ()), *([_STRICTER] if came else ())}
    classed = min(classes or {_OTHER}, key=list(DifferenceClass).index)
    low, high = (_words(moments, sides, site, lost if number == 0 else came, number) for number in range(2))
    return Derived(make(at, DifferenceKind.CHANGED, classed, _why(classed, classes), low, high), repeats)


def _class(moment: Moment, sides: _Sides) -> DifferenceClass | None:
    """What becomes of a moment that both pages have; None where it is answered as before."""
    was, now = sides.before.get(moment), sides.after.get(moment)
    if was is None:
        return None
    if now is None:
        elsewhere = any(other[:2] == moment[:2] for other in sides.after)
        return None if elsewhere else _LOOSER
    if was.held != now.held:
        return _LOOSER if was.held else _STRICTER
    return None if was.outcome is now.outcome else _OTHER


def _warnings_apart(sides: _Sides) -> tuple[Mapping[str, str], Mapping[str, str]]:
    """The titles, by hazard, of the warnings that only one of the two guides gives."""
    was, now = ({one.name: one.title for one in _warned(guide)} for guide in (sides.was, sides.now))
    lost, came = (
        {name: title for name, title in one.items() if name not in other}
        for one, other in ((was, now), (now, was))
    )
    return lost, came


def _warned(guide: RecoveryGuide) -> list[PageWarning]:
    return [*guide.warnings, *(warning for step in guide.steps for warning in step.warnings)]


def _same_words(sides: _Sides) -> bool:
    if set(sides.before) != set(sides.after):
        return False
    known: dict[tuple[tuple[str, ...], tuple[str, ...]], bool] = {}
    for moment, way in sides.before.items():
        other = sides.after[moment]
        key = (way.texts, other.texts)
        if key not in known:
            known[key] = say_the_same(*key)
        if not known[key] or way.until != other.until:
            return False
    return say_the_same([*texts_of(sides.was.warnings)], [*texts_of(sides.now.warnings)])


def _why(classed: DifferenceClass, classes: set[DifferenceClass]) -> str:
    if classed is _LOOSER:
        return "somebody is to be called no more, or a warning or an answer is gone"
    if classed is _STRICTER:
        return "somebody is to be called where there was a way out, or a warning came"
    return "another way out" if classes else "the ways out are told otherwise"


def _words(
    moments: Mapping[Moment, DifferenceClass], sides: _Sides, site: HoldSite, warnings: list[str], number: int
) -> str:
    """One side: what is to be done at the moments that differ, by the page's own step numbers."""
    back = {new: old for old, new in sides.steps.items()}
    groups: dict[tuple[str, str, str], list[int]] = {}
    for moment in moments:
        mishap, step, _ = moment
        low, high = (
            str(side[moment].outcome) if moment in side else "" for side in (sides.before, sides.after)
        )
        groups.setdefault((mishap, low, high), []).append(back.get(step, step) if number == 0 else step)
    parts = [
        f"{mishap} ({_steps(steps)}): {(low, high)[number] or _NOTHING}"
        for (mishap, low, high), steps in groups.items()
    ]
    parts += [f"warning “{title}”" for title in warnings]
    guide = (sides.was, sides.now)[number]
    return "; ".join([*parts, _summary(guide, site, brief=bool(parts))])


def _steps(numbers: list[int]) -> str:
    """Step numbers, neighbours together."""
    runs: list[list[int]] = []
    for number in sorted(set(numbers)):
        if runs and number == runs[-1][1] + 1:
            runs[-1][1] = number
        else:
            runs.append([number, number])
    said = ", ".join(str(low) if low == high else f"{low} to {high}" for low, high in runs)
    return f"step {said}" if len(runs) == 1 and runs[0][0] == runs[0][1] else f"steps {said}"


def _summary(guide: RecoveryGuide, site: HoldSite, *, brief: bool = False) -> str:
    """How many answers there are, and a sum over all that is said, by which any change shows."""
    answers = _answers(guide, site)
    told = [
        (*moment, str(way.outcome), way.until, as_they_stood(way.texts)) for moment, way in answers.items()
    ]
    said = repr((told, as_they_stood([*texts_of(guide.warnings)])))
    digest = hashlib.sha256(said.encode("utf-8", "surrogateescape")).hexdigest()[:12]
    if brief:
        return f"in all {len(answers)} answers ({digest})"
    calls = sum(way.held for way in answers.values())
    how_many = f"{len(answers)} answers, {calls} of them to call or to wait, in {len(guide.ways)} ways"
    return f"{how_many} ({digest})"
