"""`procgen recover`: the way out at a step, or whom to call; and honest words for what cannot be asked."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from procgen.cli.main import main

STATIONS = Path(__file__).parents[2] / "stations"


def _recover(*arguments: str) -> int:
    return main(["recover", "SR-AFT", "--operation", "loading", *arguments, "--stations", str(STATIONS)])


def test_the_way_out_is_made_safe_first_and_ends_closed(capsys: pytest.CaptureFixture[str]) -> None:
    assert _recover("--step", "8", "--mishap", "power") == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0] == "SR-AFT, loading, step 8: Lower door sill lock."
    assert "Leave every unit where it is and close the hold." in lines[3]
    steps = [line.strip() for line in lines if line.strip()[:1].isdigit()]
    assert steps[0] == "1. Check: all stopped."
    assert any(step.endswith("Close aft cargo door.") for step in steps)


def test_where_there_is_no_way_it_says_why_and_whom_to_call(capsys: pytest.CaptureFixture[str]) -> None:
    assert _recover("--step", "18", "--mishap", "jammed") == 1
    said = capsys.readouterr().out
    assert "The unit is jammed, u41 in 44.\n  Leave it as it is, and call." in said
    assert "SR-AFT.yaml:" in said
    assert "lock 43 cannot be raised: it is out of reach past u41" in said
    assert "Call (K1B): loading supervisor, radio channel 4; load control, extension 210." in said
    assert "between 44 and 43" in said


def test_a_unit_before_the_door_is_finished_first(capsys: pytest.CaptureFixture[str]) -> None:
    assert _recover("--step", "17", "--mishap", "person") == 0
    assert "First finish step 18, then stop there." in capsys.readouterr().out


def test_the_same_as_data(capsys: pytest.CaptureFixture[str]) -> None:
    assert _recover("--step", "18", "--format", "json") == 1
    data = json.loads(capsys.readouterr().out)
    assert (data["hold"], data["operation"], data["step"]) == ("SR-AFT", "loading", 18)
    assert {case["mishap"] for case in data["cases"]} == {"power", "drive", "jammed", "person"}
    drive = next(c for c in data["cases"] if c["mishap"] == "drive" and c["places"] == ["44"])
    assert drive["title"] == "Bring the unit out and close the hold."
    assert {"check": "all-stopped"} in drive["steps"]
    calls = [case for case in data["cases"] if case["outcome"] == "call"]
    assert all(case["reasons"][0]["line"] for case in calls)
    assert data["call"]["N4T"][0] == {"role": "loading supervisor", "how": "radio channel 2"}


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--step", "99"), "SR-AFT, loading has no step 99 (steps: 1 to 49)"),
        (("--step", "0"), "has no step 0"),
        (("--step", "2"), "no door is open when this step is done"),
        (("--step", "8", "--mishap", "jammed"), "cannot be that the unit is jammed (can be: power, person)"),
        (("--step", "8", "--positions", "49"), "SR-AFT has no position 49"),
    ],
)
def test_what_cannot_be_asked_is_answered_in_one_line(
    arguments: tuple[str, ...], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert _recover(*arguments) == 2
    output = capsys.readouterr()
    assert said in output.err
    assert output.out == ""


def test_no_procedure_no_way_out(capsys: pytest.CaptureFixture[str]) -> None:
    assert _recover("--step", "8", "--positions", "41=AKE") == 1
    assert "there is no plan" in capsys.readouterr().out
