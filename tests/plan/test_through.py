"""Through-loads: units that stay are left alone; one that is in the way comes out and is put back.

What these tests expect is common practice of the trade, no source.
"""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from procgen.cli.main import main
from procgen.model.step import PlannedUnit, Present
from procgen.model.words import OUTSIDE, Operation
from procgen.plan import choose_units, plan
from procgen.results.plan import Plan
from tests.plan.planning import UnitTypes, findings, moves, order, rest
from tests.support import STATIONS, demo, demo_hold

LOADING, UNLOADING = Operation.LOADING, Operation.UNLOADING


@pytest.fixture(scope="module")
def types() -> UnitTypes:
    return demo().network.unit_types


def _planned(
    name: str, types: UnitTypes, operation: Operation, positions: Sequence[str], stays: Sequence[str]
) -> Plan:
    hold = demo_hold(name)
    units = choose_units(hold, types, positions)
    aboard = {
        f"s{unit.bay}": PlannedUnit(f"s{unit.bay}", unit.unit_type, unit.bay)
        for unit in choose_units(hold, types, stays).values()
    }
    made = plan(hold, types, rest(hold, operation, units, aboard), operation, units, aboard)
    assert isinstance(made, Plan), made
    assert findings(hold, types, made) == (), made.steps
    return made


@pytest.mark.parametrize("operation", Operation)
def test_what_is_in_nobodys_way_is_not_touched(operation: Operation, types: UnitTypes) -> None:
    made = _planned("SR-AFT", types, operation, ["43", "44"], ["41", "42"])
    assert made.put_back == ()
    assert {move.unit for move in moves(made)} == {"u43", "u44"}


@pytest.mark.parametrize("operation", Operation)
def test_only_the_unit_in_the_way_comes_out(operation: Operation, types: UnitTypes) -> None:
    made = _planned("SR-AFT", types, operation, ["42"], ["41", "43"])
    assert made.put_back == ("s43",)
    assert [move.through[-1] for move in moves(made) if move.unit == "s43"] == ["44", OUTSIDE, "44", "43"]
    assert [step for step in made.steps if isinstance(step, Present) and step.unit == "s43"]


@pytest.mark.parametrize("operation", Operation)
def test_what_stands_before_the_unit_in_the_way_comes_out_first(
    operation: Operation, types: UnitTypes
) -> None:
    made = _planned("SR-AFT", types, operation, ["41"], ["43", "44"])
    assert set(made.put_back) == {"s43", "s44"}
    outward = [move.unit for move in moves(made) if move.through[-1] == OUTSIDE]
    assert outward[:2] == ["s44", "s43"]
    assert order(made)[-1] == "s44" or moves(made)[-1].unit == "s44"


@pytest.mark.parametrize("operation", Operation)
def test_the_other_row_stays(operation: Operation, types: UnitTypes) -> None:
    made = _planned("TR-FWD", types, operation, ["11L"], ["12L", "11R", "12R", "13R"])
    assert made.put_back == ("s12L",)


def test_what_stays_aboard_is_said_on_the_command_line(capsys: pytest.CaptureFixture[str]) -> None:
    asked = ["plan", "SR-AFT", "--operation", "loading", "--stations", str(STATIONS)]
    assert main([*asked, "--positions", "41=AKH,42=PKC", "--aboard", "43"]) == 0
    said = capsys.readouterr().out
    assert "u42  PKC  position 42  moved" in said
    assert "u43  AKH  position 43  comes out and is put back" in said
    assert main([*asked, "--aboard", "41", "42"]) == 0
    said = capsys.readouterr().out
    assert "u42  AKH  position 42  stays aboard" in said
    assert "u43  AKH  position 43  moved" in said


def test_a_unit_type_that_does_not_fit_is_a_reason(capsys: pytest.CaptureFixture[str]) -> None:
    asked = ["plan", "SR-AFT", "--operation", "unloading", "--stations", str(STATIONS)]
    assert main([*asked, "--positions", "42", "--aboard", "43=AKE"]) == 1
    assert "AKE does not fit 43: it is 1626 mm high, 43 takes 1.24 m" in capsys.readouterr().out
