"""The commands take a registration, and with it the hold as that aircraft has it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from procgen.cli.main import main
from tests.support import STATIONS


def _run(*arguments: str) -> int:
    return main([*arguments, "--stations", str(STATIONS)])


@pytest.mark.parametrize(
    ("mark", "named", "most"),
    [
        ("Q4-R1", "MR-FWD", 1000),
        ("Q4-R1", "MR-FWD-M9", 1000),
        ("q4-r3", "MR-FWD", 1134),
        ("Q4-R3", "MR-FWD-M9", 1134),
    ],
)
def test_limits_are_those_of_the_aircraft_whichever_variant_is_named(
    mark: str, named: str, most: int, capsys: pytest.CaptureFixture[str]
) -> None:
    assert _run("limits", named, "--registration", mark) == 0
    said = capsys.readouterr().out
    assert said.startswith("MR-FWD-M9:" if most == 1134 else "MR-FWD:")
    last = said[said.index("Position 23") :]
    assert (" 1 134 kg  governed by" in last) is (most == 1134)
    assert (" 1 000 kg  governed by" in last) is (most == 1000)


def test_a_plan_names_the_variant_it_is_for(capsys: pytest.CaptureFixture[str]) -> None:
    assert (
        _run("plan", "MR-FWD", "--operation", "loading", "--registration", "Q4-R4", "--format", "json") == 0
    )
    assert json.loads(capsys.readouterr().out)["hold"] == "MR-FWD-M9"


@pytest.mark.parametrize(("mark", "status"), [("Q4-R1", 1), ("Q4-R3", 0)])
def test_a_load_is_judged_by_the_variant_of_the_aircraft(
    mark: str, status: int, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "load.csv"
    file.write_text("hold,position,type,mass\nMR-FWD,23,AKH,1100 kg\n", "utf-8")
    assert _run("load", str(file), "--registration", mark) == status
    assert ("MR-FWD-M9" in capsys.readouterr().out) is (mark == "Q4-R3")


def test_an_unknown_registration_is_answered_with_those_there_are(capsys: pytest.CaptureFixture[str]) -> None:
    for command in (
        ("limits", "MR-FWD"),
        ("plan", "MR-FWD", "--operation", "loading"),
        ("out-of-service", "MR-FWD"),
        ("sequence", "SKUA-180"),
    ):
        assert _run(*command, "--registration", "Q4-R8") == 2, command
        said = capsys.readouterr()
        assert said.out == ""
        assert "no aircraft is registered Q4-R8; did you mean Q4-R" in said.err
        assert "Q4-R1, Q4-R2, Q4-R3, Q4-R4" in said.err


def test_a_hold_that_the_aircraft_has_not_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    assert _run("limits", "TR-FWD", "--registration", "Q4-R1") == 2
    assert "Q4-R1 has no hold TR-FWD (its holds: MR-FWD, SR-AFT)" in capsys.readouterr().err


def test_a_sequence_asks_which_aircraft_where_they_differ(capsys: pytest.CaptureFixture[str]) -> None:
    assert _run("sequence", "SKUA-180", "--operation", "loading") == 2
    assert "name one with --registration (Q4-R1, Q4-R2; Q4-R3, Q4-R4)" in capsys.readouterr().err
    assert _run("sequence", "SKUA-180", "--operation", "loading", "--registration", "Q4-R3") == 0
    assert "MR-FWD-M9 23 in" in capsys.readouterr().out
