"""Out-of-service matrices compared: usable with a part dead is looser, not usable any more is stricter."""

from __future__ import annotations

from dataclasses import replace

from procgen.diff.compare import differences
from procgen.results.difference import Difference, DifferenceClass, DifferenceKind
from procgen.results.matrix import Answer
from procgen.results.page import ItemAnswer, LeftLimit, OutOfServiceGuide, ShortBlock, StationSite
from procgen.units import of
from tests.pipeline.out_of_service import matrix_guide
from tests.publish.sites import site

GUIDE = matrix_guide("SR-AFT")


def _with(guide: OutOfServiceGuide | None) -> StationSite:
    real = site("K1B")
    holds = tuple(hold for hold in real.holds if hold.hold.name == "SR-AFT")
    return replace(real, holds=(replace(holds[0], out_of_service=guide),))


def _found(was: OutOfServiceGuide | None, now: OutOfServiceGuide | None) -> list[Difference]:
    return [one for one in differences(_with(was), _with(now)) if "out-of-service" in one.identity]


def _edited(answer: Answer, **change: object) -> OutOfServiceGuide:
    """The matrix with one answer of its kind replaced by another."""
    items = list(GUIDE.items)
    for number, item in enumerate(items):
        for place, one in enumerate(item.answers):
            if one.answers[-1] is answer:
                other: ItemAnswer = replace(one, **change)  # type: ignore[arg-type]
                answers = (*item.answers[:place], other, *item.answers[place + 1 :])
                items[number] = replace(item, answers=answers)
                return replace(GUIDE, items=tuple(items))
    raise AssertionError(f"no answer is {answer}")


def test_the_same_matrix_is_no_difference_and_a_new_one_is_one() -> None:
    assert _found(GUIDE, GUIDE) == []
    assert _found(None, None) == []
    (new,) = _found(None, GUIDE)
    assert (new.kind, new.classed) == (DifferenceKind.ADDED, DifferenceClass.CHANGED)
    (gone,) = _found(GUIDE, None)
    assert (gone.kind, gone.classed) == (DifferenceKind.REMOVED, DifferenceClass.LOOSENED)


def test_a_position_that_becomes_usable_is_loosened_and_the_other_way_round_tightened() -> None:
    usable = _edited(Answer.NOT_USABLE, answers=(Answer.OTHER_STEPS,), reasons=())
    (loosened,) = _found(GUIDE, usable)
    assert loosened.classed is DifferenceClass.LOOSENED
    assert loosened.identity == "SR-AFT/out-of-service/power-dead/loading"
    assert loosened.was is not None
    assert "not usable" in loosened.was.text
    (tightened,) = _found(usable, GUIDE)
    assert tightened.classed is DifferenceClass.TIGHTENED


def test_another_crew_is_changed_and_a_lower_limit_is_tightened() -> None:
    (crew,) = _found(GUIDE, _edited(Answer.OTHER_STEPS, crew=4))
    assert crew.classed is DifferenceClass.CHANGED
    assert crew.now is not None
    assert "with 4 people" in crew.now.text
    limit = LeftLimit("AKH", of(1000, "kg"), of(900, "kg"), "restraint aft")
    lower = _edited(Answer.OTHER_STEPS, limits=(limit,))
    assert [one.classed for one in _found(GUIDE, lower)] == [DifferenceClass.TIGHTENED]
    assert [one.classed for one in _found(lower, GUIDE)] == [DifferenceClass.LOOSENED]


def _renumbered(block: ShortBlock, last: int) -> ShortBlock:
    return replace(block, steps=tuple(last - number for number in block.steps))


def test_the_order_in_which_steps_are_kept_is_no_difference_and_a_lost_warning_is_loosened() -> None:
    last = len(GUIDE.steps) - 1
    turned = replace(
        GUIDE,
        steps=tuple(reversed(GUIDE.steps)),
        procedures=tuple(
            replace(one, blocks=tuple(_renumbered(block, last) for block in one.blocks))
            for one in GUIDE.procedures
        ),
    )
    assert _found(GUIDE, turned) == []
    bare = replace(GUIDE, procedures=tuple(replace(one, warnings=()) for one in GUIDE.procedures))
    lost = _found(GUIDE, bare)
    assert lost
    assert {one.classed for one in lost} == {DifferenceClass.LOOSENED}
    assert {one.kind for one in lost} == {DifferenceKind.REMOVED}
    # One for each hazard, whatever the number of items: the same warnings are lost in all short procedures.
    names = {GUIDE.warnings[number].name for one in GUIDE.procedures for number in one.warnings}
    assert {one.identity for one in lost} == {f"SR-AFT/out-of-service/warnings/{name}" for name in names}
    back = _found(bare, GUIDE)
    assert {one.classed for one in back} == {DifferenceClass.TIGHTENED}
    assert {one.identity for one in back} == {one.identity for one in lost}
