"""Folding: cycles that differ only in names become one with a table, and nothing is lost on the way."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from procgen.model.step import (
    Check,
    Drive,
    Lower,
    Note,
    Present,
    Procedure,
    Push,
    Raise,
    Section,
    Step,
    Warn,
)
from procgen.model.words import OUTSIDE, Operation, SectionName
from procgen.plan import choose_units, plan
from procgen.results.page import PageBlock, PageStep, ProcedurePage
from procgen.results.plan import Plan
from procgen.results.state import state_at_rest
from procgen.write import compose
from procgen.write.folding import fold, unfold
from tests.strategies import GeneratedHold, holds
from tests.support import demo
from tests.write.derived import demo_procedures, generated, page_of
from tests.write.plans import written
from tests.write.test_any_steps import procedures

PAGES = [page_of(procedure) for procedure in demo_procedures()]


def _places(steps: tuple[Step, ...]) -> list[object]:
    return [step.place for step in steps]


def assert_folds_back(steps: tuple[Step, ...]) -> int:
    """The number of turns; the steps come back with their places."""
    folded = fold(steps)
    back = unfold(folded)
    assert back == steps
    assert _places(back) == _places(steps)
    return len(folded.turns())


@pytest.mark.parametrize("procedure", demo_procedures(), ids=lambda p: p.name)
def test_the_demonstration_comes_back_as_it_was(procedure: Procedure) -> None:
    assert assert_folds_back(procedure.steps) >= 2


@settings(deadline=None, max_examples=60)
@given(procedures())
def test_any_steps_come_back_as_they_were(procedure: Procedure) -> None:
    assert_folds_back(procedure.steps)


@settings(deadline=None, max_examples=60)
@given(procedures(), st.integers(2, 4))
def test_steps_that_repeat_come_back_too(procedure: Procedure, times: int) -> None:
    """The same steps over and over, with other units: much to fold."""
    body = [step for step in procedure.steps if not isinstance(step, (Section, Warn))]
    turns = [
        replace(step, unit=f"u{turn}") if isinstance(step, (Present, Drive, Push)) else step
        for turn in range(times)
        for step in (Present("u"), *body, Drive("u", {}, (OUTSIDE, "44")))
    ]
    steps = (Section(SectionName.MOVE_UNITS), *turns)
    assert assert_folds_back(steps) in (0, times) or body


@settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow])
@given(holds(), st.sampled_from(Operation))
def test_plans_for_any_hold_come_back_and_their_pages_lose_nothing(
    drawn: GeneratedHold, operation: Operation
) -> None:
    hold = drawn.hold
    units = choose_units(hold, drawn.unit_types, None)
    aboard = {u.name: u.bay for u in units.values()} if operation is Operation.UNLOADING else {}
    outcome = plan(hold, drawn.unit_types, state_at_rest(hold, aboard), operation, units)
    assume(isinstance(outcome, Plan) and outcome.units)
    assert isinstance(outcome, Plan)
    assert_folds_back(outcome.steps)
    hazards = demo().network.hazards
    procedure = compose(outcome, hold, hazards)
    assert_folds_back(procedure.steps)
    network = replace(demo().network, unit_types=drawn.unit_types)
    assert_says_every_block(page_of(procedure, hold, network))


def _filled(text: str, names: tuple[str, ...]) -> str:
    """A text of a fold with the names of one turn."""

    def name(found: re.Match[str]) -> str:
        shown = names[int(found[2])]
        if not found[1]:
            return shown
        return re.sub(r"^(\*\*)?(.)", lambda first: (first[1] or "") + first[2].upper(), shown)

    return re.sub(r"\[\[(\^?)(\d+)\]\]", name, text)


def _unfolded(step: PageStep, names: tuple[str, ...], own: PageStep) -> PageStep:
    return replace(
        step,
        number=own.number,
        index=own.index,
        text=_filled(step.text, names),
        why=_filled(step.why, names),
        done_when=_filled(step.done_when, names),
        if_not=_filled(step.if_not, names),
        then=_filled(step.then, names),
        step=own.step,
    )


def assert_says_every_block(page: ProcedurePage) -> int:
    """Each folded block comes back word by word from its table; the number of folded blocks."""
    blocks = {block.letter: block for block in page.blocks}
    seen: list[str] = []
    for one in page.folds:
        assert len(one.turns) > 1
        assert len(set(one.labels)) == len(one.labels) <= 7
        for turn in one.turns:
            block: PageBlock = blocks[turn.letter]
            seen.append(turn.letter)
            assert len(turn.names) == len(one.labels)
            assert (turn.bay, turn.first, turn.last) == (
                block.bay,
                block.steps[0].number,
                block.steps[-1].number,
            )
            assert _filled(one.intro, turn.names) == block.intro
            assert block.warnings in ((), one.warnings)
            steps = tuple(
                _unfolded(step, turn.names, own) for step, own in zip(one.steps, block.steps, strict=True)
            )
            assert steps == block.steps
    order = list(blocks)
    assert seen == sorted(set(seen), key=order.index)
    return len(seen)


@pytest.mark.parametrize("page", PAGES, ids=lambda p: p.name)
def test_a_fold_says_every_block_word_by_word(page: ProcedurePage) -> None:
    assert assert_says_every_block(page) >= 2


def test_what_the_tables_of_the_demonstration_say() -> None:
    (one,) = page_of(generated("SR-AFT", Operation.LOADING)).folds
    assert (one.title, one.labels) == ("Load 41 and 42", ("position", "lock", "what stops it"))
    assert [turn.names for turn in one.turns] == [
        ("**41**", "**lock 41**", "the **end stop**"),
        ("**42**", "**lock 42**", "**lock 41**"),
    ]
    assert one.steps[-1].text == "Go in. Raise [[1]]."
    (one,) = page_of(generated("TR-FWD", Operation.UNLOADING)).folds
    assert len(one.turns) == 6
    assert one.labels == ("position", "lock", "lane stick", "what stops it", "side guide")


def test_blocks_that_stand_apart_are_not_folded() -> None:
    """12R is loaded as 11R, but 13L comes between them: whoever turns back loses the place."""
    procedure = generated("TR-FWD", Operation.LOADING)
    turns = {turn.start: turn.pattern for turn in fold(procedure.steps).turns()}
    assert len(turns) > len(set(turns.values()))
    folds = page_of(procedure).folds
    assert [[turn.letter for turn in one.turns] for one in folds] == [["C", "D"]]


LOOSE = """\
procedure: by-hand
hold: SR-AFT
operation: loading
units:
  a: {type: AKH, bay: "41"}
  b: {type: AKH, bay: "42"}
steps:
  - section: move-units
  - present: a
  - check: path-clear
  - push: {unit: a, crew: 3, through: [outside, "44", "43", "42", "41"]}
  - raise: lock-41
  - present: b
  - check: path-clear
  - push: {unit: b, crew: 3, through: [outside, "44", "43", "42"]}
  - raise: lock-42
  - section: secure-and-close
  - check: everyone-out
"""


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("present: b", "present: b\n  - note: Wait for the van."),
        ("- raise: lock-42", "- warning: lock-missed\n  - raise: lock-42"),
        ("- raise: lock-42", "- raise: lock-42\n  - check: {raised: [lock-41]}"),
        ("unit: b, crew: 3", "unit: b, crew: 4"),
        ("b: {type: AKH", "b: {type: PKC"),
        ("- raise: lock-42", "- lower: lock-42"),
        ('crew: 3, through: [outside, "44", "43", "42"]', 'crew: 3, through: [outside, "44"]'),
    ],
)
def test_a_difference_that_is_no_name_is_never_folded(old: str, new: str) -> None:
    plain, other = page_of(written(LOOSE)), page_of(written(LOOSE.replace(old, new)))
    assert [turn.letter for one in plain.folds for turn in one.turns] == ["A", "B"]
    assert LOOSE.count(old) == 1
    assert other.folds == ()
    assert_folds_back(written(LOOSE.replace(old, new)).steps)


def test_named_units_keep_their_names() -> None:
    (one,) = page_of(written(LOOSE)).folds
    assert one.labels[:2] == ("position", "unit")
    assert [turn.names[1] for turn in one.turns] == ["**a**", "**b**"]


def test_a_remark_that_looks_like_a_slot_is_not_folded() -> None:
    text = LOOSE.replace("  - raise:", "  - note: See [[0]].\n  - raise:")
    assert page_of(written(text)).folds == ()


def test_limits_that_differ_are_not_folded() -> None:
    """44 carries less than the others: its number stands in words, and is no name."""
    page = page_of(generated("SR-AFT", Operation.LOADING))
    assert "44" not in [turn.bay for one in page.folds for turn in one.turns]
    assert {step.text for block in page.blocks for step in block.steps if "1 000 kg" in step.text}


def test_checks_for_a_unit_fold_with_it() -> None:
    steps: tuple[Step, ...] = (
        Section(SectionName.MOVE_UNITS),
        *(
            step
            for unit, lock in (("a", "lock-41"), ("b", "lock-42"))
            for step in (Check("unit-serviceable", unit), Present(unit), Raise(lock))
        ),
        Note("Done."),
        Lower("lock-42"),
    )
    assert assert_folds_back(steps) == 0  # what stands behind the second lock tells the cycles apart
    assert assert_folds_back(steps[:-2]) == 2
