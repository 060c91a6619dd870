"""The out-of-service matrix: each cell follows from plans that the simulator has nothing to say against."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings

from procgen.limits import position_table
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.step import Procedure
from procgen.model.words import Operation
from procgen.pipeline.checking import check_procedure, derive
from procgen.pipeline.matrix import all_failures, matrix, matrix_of
from procgen.pipeline.proving import Job, Prover
from procgen.plan import choose_units
from procgen.results.matrix import Answer, Matrix, MatrixCell, MatrixRow
from tests.strategies import GeneratedHold, holds
from tests.support import demo, demo_hold

SMALL = ("SR-AFT", "MR-FWD")


def _matrix(name: str) -> Matrix:
    return matrix(demo().network, demo_hold(name))


def _row(table: Matrix, item: str, failure: str) -> MatrixRow:
    (row,) = [r for r in table.rows if (r.out.item, str(r.out.failure)) == (item, failure)]
    return row


def _answers(row: MatrixRow, operation: Operation) -> dict[str, str]:
    return {cell.position: str(cell.answer) for cell in row.cells if cell.operation is operation}


@pytest.mark.parametrize("name", SMALL)
def test_every_item_has_a_row_for_every_way_and_a_cell_for_every_position_and_operation(name: str) -> None:
    hold, table = demo_hold(name), _matrix(name)
    assert [row.out for row in table.rows] == list(all_failures(hold))
    for row in table.rows:
        asked = [(operation, position) for operation in Operation for position in hold.positions]
        assert [(cell.operation, cell.position) for cell in row.cells] == asked


def test_what_a_dead_lane_drive_a_jammed_lock_and_a_missing_one_leave_of_a_single_row() -> None:
    """By hand from the description: the lane drive alone moves units beyond the doorway, and the hold
    forbids pushing; lock 42 up stands between 43 and 42; without it nothing holds 42 aft nor 43 forward."""
    table = _matrix("SR-AFT")
    dead = _answers(_row(table, "lane-drive", "dead"), Operation.LOADING)
    assert dead == {"41": "not-usable", "42": "not-usable", "43": "not-usable", "44": "as-before"}
    jammed = _answers(_row(table, "lock-42", "up"), Operation.LOADING)
    assert jammed == {"41": "not-usable", "42": "not-usable", "43": "other-steps", "44": "as-before"}
    missing = _answers(_row(table, "lock-42", "missing"), Operation.LOADING)
    assert missing == {"41": "as-before", "42": "not-usable", "43": "not-usable", "44": "as-before"}
    for row in table.rows:
        for cell in row.cells:
            reasons = (*cell.alone.reasons, *cell.together.reasons)
            assert all(reason.message and reason.place.file for reason in reasons)


def test_power_dead_in_a_mixed_hold_is_work_by_hand_with_its_crew() -> None:
    """MX-AFT allows pushing: every container is pushed; the crew is that of limits.md, section 7."""
    (power,) = [one for one in all_failures(demo_hold("MX-AFT")) if one.item == "power"]
    (row,) = matrix_of(demo().network, demo_hold("MX-AFT"), [power]).rows
    container = next(c for c in row.cells if c.position == "31L" and c.operation is Operation.LOADING)
    assert container.answers == (Answer.OTHER_STEPS, Answer.BY_HAND)
    assert container.alone.crew is not None
    assert container.alone.crew >= 2


@pytest.mark.parametrize("name", SMALL)
def test_every_procedure_that_a_cell_names_is_clean_and_every_other_cell_is_proven(name: str) -> None:
    network, hold, table = demo().network, demo_hold(name), _matrix(name)
    for procedure in table.procedures.values():
        assert procedure.out_of_service
        assert check_procedure(network, hold, procedure).findings == ()
    named = {cell.procedure for row in table.rows for cell in row.cells}
    assert named - {""} == set(table.procedures)
    prover, tally = Prover(network, hold), Counter[Answer]()
    for row in table.rows:
        for cell in row.cells:
            tally[cell.answer] += 1
            _claims(prover, row, cell)
    assert tally[Answer.AS_BEFORE] > 10
    assert tally[Answer.NOT_USABLE] > 10


def _claims(prover: Prover, row: MatrixRow, cell: MatrixCell) -> None:
    """`as before` is the same steps, simulated with the item dead; a limit is never above the whole one."""
    before = prover.prove(Job(cell.operation, (cell.position,)))
    if cell.alone.same:
        assert not before.reasons
        made = before.plan
        assert not prover.simulated(made, [row.out]).findings  # type: ignore[arg-type]
    if cell.answer is Answer.NOT_USABLE:
        assert cell.alone.reasons
    for limit in cell.limits:
        assert not limit.usable or (limit.limit is not None and limit.whole.limit is not None)
        if limit.limit is not None and limit.whole.limit is not None:
            assert limit.limit <= limit.whole.limit


def test_what_the_matrix_says_is_what_the_command_derives() -> None:
    network, hold = demo().network, demo_hold("SR-AFT")
    table = _matrix("SR-AFT")
    for item, failure, positions in (("lock-42", "up", ["43", "44"]), ("lock-41", "down", ["43", "44"])):
        row = _row(table, item, failure)
        cell = next(c for c in row.cells if c.position == "43" and c.operation is Operation.LOADING)
        derived = derive(
            network,
            hold,
            Operation.LOADING,
            choose_units(hold, network.unit_types, positions),
            out=[row.out],
        )
        assert isinstance(derived, Procedure)
        published = table.procedures[cell.procedure]
        assert (published.steps, set(published.units)) == (derived.steps, set(derived.units))


def _network(hold: GeneratedHold) -> Network:
    return replace(demo().network, holds={hold.hold.name: hold.hold}, unit_types=hold.unit_types)


def test_what_the_matrix_claims_of_generated_holds() -> None:
    tally = Counter[Answer]()

    @settings(max_examples=12, deadline=None, suppress_health_check=list(HealthCheck))
    @given(holds())
    def trial(drawn: GeneratedHold) -> None:
        hold: Hold = drawn.hold
        if len(hold.positions) > 6:
            return
        network = _network(drawn)
        table = matrix_of(network, hold, all_failures(hold)[::4])
        prover = Prover(network, hold)
        whole = {(c.position, c.unit_type): c.limit for c in position_table(hold, drawn.unit_types).cells}
        for row in table.rows:
            for cell in row.cells:
                tally[cell.answer] += 1
                if not prover.prove(Job(cell.operation, (cell.position,))).reasons:
                    _claims(prover, row, cell)
                for limit in cell.limits:
                    key = limit.whole.position, limit.whole.unit_type
                    assert limit.limit is None or limit.limit <= whole[key]  # type: ignore[operator]

    trial()
    assert tally.total() > 50, tally
