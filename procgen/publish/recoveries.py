"""What to do when something goes wrong half way, as cards and pages show it: step by step, and way by way."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from procgen.model.hold import Hold
from procgen.results.page import (
    HoldSite,
    PageStep,
    PageWarning,
    ProcedurePage,
    RecoveryCase,
    RecoveryGuide,
)
from procgen.results.recovery import Mishap, Outcome, mishap_words, where


@dataclass(frozen=True, slots=True)
class TroubleRow:
    """One mishap at some steps: where the unit stands, what it comes to, and the number of the way, from 1.

    `until` is the number of the step to be finished first, 0 where none is; `why` are reasons in words.
    """

    mishap: str
    where: str
    title: str
    way: int
    calls: bool
    until: int = 0
    why: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Trouble:
    """Everything that can go wrong at steps `first` to `last`, which are answered alike.

    `stop` are the steps with which every way begins there.
    """

    number: int
    first: int
    last: int
    stop: tuple[PageStep, ...]
    rows: tuple[TroubleRow, ...]

    @property
    def steps(self) -> str:
        """The steps in words."""
        return f"Step {self.first}" if self.first == self.last else f"Steps {self.first} to {self.last}"

    @property
    def by_mishap(self) -> tuple[tuple[str, tuple[TroubleRow, ...]], ...]:
        """The rows under what has gone wrong, as people look for it: first what, then where the unit is."""
        found: dict[str, tuple[TroubleRow, ...]] = {}
        for row in self.rows:
            found[row.mishap] = (*found.get(row.mishap, ()), row)
        return tuple(found.items())


@dataclass(frozen=True, slots=True)
class ShownWay:
    """One way out, numbered from 1: what it comes to, its warnings and its steps."""

    number: int
    title: str
    calls: bool
    warnings: tuple[PageWarning, ...]
    stop: tuple[PageStep, ...]
    then: tuple[PageStep, ...]

    @property
    def shown(self) -> bool:
        """Whether there is anything to do: nothing is where a later step comes first."""
        return bool(self.stop or self.then)


@dataclass(frozen=True, slots=True)
class ShownGuide:
    """A guide ready to be laid out. `by_step` maps a step's number to the trouble it belongs to."""

    troubles: tuple[Trouble, ...]
    ways: tuple[ShownWay, ...]
    warnings: tuple[PageWarning, ...]
    by_step: Mapping[int, int]


def guide_for(hold: HoldSite, page: ProcedurePage) -> ShownGuide | None:
    """The guide of a page; None where there is none (in releases from before there were guides)."""
    found = next((guide for guide in hold.recoveries if guide.name == page.name), None)
    return _shown(found, hold.hold) if found is not None else None


def _shown(guide: RecoveryGuide, hold: Hold) -> ShownGuide:
    ways = tuple(
        ShownWay(
            number,
            way.title,
            way.outcome is Outcome.CALL,
            tuple(guide.warnings[index] for index in way.warnings),
            tuple(guide.steps[index] for index in way.stop),
            tuple(guide.steps[index] for index in way.then),
        )
        for number, way in enumerate(guide.ways, start=1)
    )
    troubles = _troubles(guide, hold)
    by_step = {
        step: trouble.number for trouble in troubles for step in range(trouble.first, trouble.last + 1)
    }
    warnings = [warning for way in ways for step in (*way.stop, *way.then) for warning in step.warnings]
    return ShownGuide(troubles, ways, tuple(dict.fromkeys((*guide.warnings, *warnings))), by_step)


def _troubles(guide: RecoveryGuide, hold: Hold) -> tuple[Trouble, ...]:
    steps = sorted({step for case in guide.cases for step in range(case.first, case.last + 1)})
    rank = list(Mishap)
    runs: list[tuple[int, int, tuple[RecoveryCase, ...]]] = []
    for step in steps:
        here = [case for case in guide.cases if case.first <= step <= case.last]
        told = tuple(sorted(here, key=lambda case: rank.index(case.mishap)))
        if runs and runs[-1][1] == step - 1 and runs[-1][2] == told:
            runs[-1] = (runs[-1][0], step, told)
        else:
            runs.append((step, step, told))
    return tuple(
        Trouble(number, first, last, _common(guide, told), _rows(guide, told, hold))
        for number, (first, last, told) in enumerate(runs, start=1)
    )


def _common(guide: RecoveryGuide, cases: tuple[RecoveryCase, ...]) -> tuple[PageStep, ...]:
    """The first steps that all ways share, as far as they do."""
    stops = [guide.ways[case.way].stop for case in cases if guide.ways[case.way].stop]
    shared: list[PageStep] = []
    for column in zip(*stops, strict=False):
        if len(set(column)) > 1:
            break
        shared.append(guide.steps[column[0]])
    return tuple(shared)


def _rows(guide: RecoveryGuide, cases: tuple[RecoveryCase, ...], hold: Hold) -> tuple[TroubleRow, ...]:
    """A row for each mishap and way: the places where the unit may stand, and all reasons, together."""
    together: dict[tuple[Mishap, int, int], list[RecoveryCase]] = {}
    for case in cases:
        together.setdefault((case.mishap, case.way, case.until), []).append(case)
    rows = []
    for (mishap, number, until), alike in together.items():
        way = guide.ways[number]
        rows.append(
            TroubleRow(
                mishap=mishap_words(mishap, hold),
                where=where(tuple(place for case in alike for place in case.places)),
                title=way.title,
                way=number + 1,
                calls=way.outcome is Outcome.CALL,
                until=until,
                why=tuple(dict.fromkeys(guide.reasons[index] for case in alike for index in case.why)),
            )
        )
    return tuple(rows)
