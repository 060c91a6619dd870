"""The matrix in words says what the matrix says, of every position, and each distinct thing once."""

from __future__ import annotations

import pytest

from procgen.limits import position_table
from procgen.model.step import CheckItems, Drive, Lower
from procgen.model.words import Operation, RestraintState
from procgen.pipeline.matrix import all_failures, matrix, matrix_of
from procgen.pipeline.out_of_service import guide_of
from procgen.results.matrix import Answer, told_apart
from tests.pipeline.out_of_service import matrix_guide
from tests.support import demo, demo_hold

HOLDS = ("SR-AFT", "MR-FWD", "BK-AFT")


@pytest.mark.parametrize("name", HOLDS)
def test_every_cell_of_the_matrix_is_told_once_with_its_own_answers(name: str) -> None:
    hold, guide = demo_hold(name), matrix_guide(name)
    table = matrix(demo().network, hold)
    assert [(one.item, one.failure, one.words) for one in guide.items] == [
        (row.out.item, row.out.failure, row.words) for row in table.rows
    ]
    for one, row in zip(guide.items, table.rows, strict=True):
        told = {
            (answer.operation, position): answer for answer in one.answers for position in answer.positions
        }
        assert len(told) == sum(len(answer.positions) for answer in one.answers) == len(row.cells)
        for cell in row.cells:
            answer = told[cell.operation, cell.position]
            assert answer.answers == cell.answers
            assert [guide.texts[number] for number in answer.reasons] or cell.alone.workable


@pytest.mark.parametrize("name", HOLDS)
def test_what_is_not_usable_says_why_and_has_no_procedure_and_other_steps_have_one(name: str) -> None:
    guide = matrix_guide(name)
    for one in guide.items:
        for answer in one.answers:
            if Answer.NOT_USABLE in answer.answers:
                assert answer.reasons, one.words
                assert answer.procedure is None, one.words
            elif answer.answers != (Answer.AS_BEFORE,):
                assert answer.procedure is not None, one.words
                moved = {bay for _, _, bay in guide.procedures[answer.procedure].units}
                assert moved & set(answer.positions), one.words
    assert len(set(guide.procedures)) == len(guide.procedures)
    assert len(set(guide.steps)) == len(guide.steps)


def test_by_hand_says_with_how_many_people_where_the_power_of_the_mixed_hold_is_dead() -> None:
    network, hold = demo().network, demo_hold("MX-AFT")
    power = [one for one in all_failures(hold) if one.item == "power"]
    found = matrix_of(network, hold, power)
    guide = guide_of(network, found, hold, position_table(hold, network.unit_types), "kg")
    (item,) = guide.items
    by_hand = [answer for answer in item.answers if Answer.BY_HAND in answer.answers]
    crews = {
        cell.position: max(cell.alone.crew or 0, cell.together.crew or 0)
        for cell in found.rows[0].cells
        if cell.operation is Operation.LOADING
    }
    assert by_hand
    assert all(answer.crew >= 2 for answer in by_hand)
    for answer in by_hand:
        if answer.operation is Operation.LOADING:
            assert {crews[name] for name in answer.positions} == {answer.crew}
        assert any("Push" in guide.texts[number] for number in answer.put_in)


def test_an_item_that_is_only_looked_at_together_with_others_is_no_difference() -> None:
    down, up = RestraintState.LOWERED, RestraintState.RAISED
    move = Drive("u1", {"stick": "in"}, ("outside", "1"))
    was = (CheckItems(("net",), down), Lower("lock"))
    now = (CheckItems(("net", "middle"), down), CheckItems(("net",), up), move)
    assert told_apart(was, now) == (
        (Lower("lock"),),
        (CheckItems(("middle",), down), CheckItems(("net",), up), move),
    )
