"""Recovery guides compared: one difference for each, loosened where somebody was to be called and is not."""

from __future__ import annotations

from dataclasses import replace

from procgen.diff.compare import differences
from procgen.model.words import Operation
from procgen.results.difference import Difference, DifferenceClass, DifferenceKind
from procgen.results.page import RecoveryGuide, StationSite
from procgen.results.recovery import Outcome
from tests.pipeline.recovered import guide_of
from tests.publish.sites import site


def _with(guide: RecoveryGuide | None) -> StationSite:
    real = site("K1B")
    holds = tuple(hold for hold in real.holds if hold.hold.name == "SR-AFT")
    return replace(real, holds=(replace(holds[0], recoveries=() if guide is None else (guide,)),))


def _found(was: RecoveryGuide | None, now: RecoveryGuide | None) -> list[Difference]:
    return [one for one in differences(_with(was), _with(now)) if "recoveries" in one.identity]


GUIDE = guide_of("SR-AFT", Operation.LOADING)


def test_the_same_guide_is_no_difference() -> None:
    assert _found(GUIDE, GUIDE) == []
    assert _found(None, None) == []


def test_a_guide_that_is_new_is_looked_at_and_one_that_is_gone_is_loosened() -> None:
    (new,) = _found(None, GUIDE)
    assert (new.kind, new.classed) == (DifferenceKind.ADDED, DifferenceClass.CHANGED)
    assert new.now is not None
    assert new.now.text.startswith("148 answers, 64 of them to call or to wait, in ")
    (gone,) = _found(GUIDE, None)
    assert (gone.kind, gone.classed) == (DifferenceKind.REMOVED, DifferenceClass.LOOSENED)


def test_a_way_where_somebody_was_to_be_called_is_loosened_and_the_other_way_round_tightened() -> None:
    called = next(i for i, way in enumerate(GUIDE.ways) if way.outcome is Outcome.CALL)
    ventured = replace(
        GUIDE,
        ways=tuple(
            replace(way, outcome=Outcome.BROUGHT_HOME) if i == called else way
            for i, way in enumerate(GUIDE.ways)
        ),
    )
    assert [one.classed for one in _found(GUIDE, ventured)] == [DifferenceClass.LOOSENED]
    assert [one.classed for one in _found(ventured, GUIDE)] == [DifferenceClass.TIGHTENED]


def test_other_words_are_a_difference_and_a_warning_that_is_gone_is_loosened() -> None:
    worded = replace(GUIDE, steps=(replace(GUIDE.steps[0], text="Call."), *GUIDE.steps[1:]))
    assert [one.classed for one in _found(GUIDE, worded)] == [DifferenceClass.CHANGED]
    bare = replace(GUIDE, steps=tuple(replace(step, warnings=()) for step in GUIDE.steps))
    assert [one.classed for one in _found(GUIDE, bare)] == [DifferenceClass.LOOSENED]
