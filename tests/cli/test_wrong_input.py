"""Wrong words on the command line and broken folders: one line that says what to do, never a traceback."""

from pathlib import Path

import pytest

from procgen.cli.main import main

STATIONS = Path(__file__).parents[2] / "stations"
LOAD = ("plan", "SR-AFT", "--operation", "loading")


def _runs(*arguments: str) -> int:
    try:
        return main(arguments)
    except SystemExit as end:
        return int(end.code or 0)


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["check", "nowhere"], "no such folder"),
        (["build", "nowhere", "--out", "site"], "no such folder"),
        (["plan", "TR-FWT", "--operation", "loading", "--stations", str(STATIONS)], "did you mean TR-FWD?"),
        (
            ["plan", "SR-AFT", "--operation", "loading", "--positions", "41,49", "--stations", str(STATIONS)],
            "SR-AFT has no position 49 (positions: 41, 42, 43, 44)",
        ),
        (
            [*LOAD, "--positions", "A=B", "7", "--stations", str(STATIONS)],
            "SR-AFT has no position A, 7 (positions: 41, 42, 43, 44)",
        ),
        (
            [*LOAD, "--positions", "41=AKX,42", "--aboard", "42", "--stations", str(STATIONS)],
            "there is no unit type “AKX” for 41; did you mean AKH?"
            " (unit types: AKE, AKH, PKC, PMC, BAGS, PARCELS); 42 is to be moved and is said to stay aboard",
        ),
        (
            [*LOAD, "--positions", "41=AKH", "41=PKC", "--stations", str(STATIONS)],
            "41 is given two unit types: name it once",
        ),
        (["limits", "XX", "--stations", str(STATIONS)], "there is no hold XX"),
        (["explain", "relesed-early"], "did you mean released-early"),
        (["check", str(STATIONS), "--procedure", "nowhere.yaml"], "nowhere.yaml"),
        (["plan", "SR-AFT", "--operation", "lading"], "invalid choice"),
        (["plan", "SR-AFT"], "--operation"),
        (["chekc"], "there is no command “chekc”; did you mean “procgen check”?"),
        (["check", str(STATIONS / "fleet" / "fleet.yaml")], "this is one file"),
        (["diff", "K1B", "Q9Z", "--stations", str(STATIONS)], "there is no station or hold Q9Z"),
        ([], "COMMAND"),
    ],
)
def test_wrong_words_are_answered_in_one_line_with_status_2(
    arguments: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert _runs(*arguments) == 2
    output = capsys.readouterr()
    assert said in output.err
    assert "Traceback" not in output.err + output.out


def test_a_folder_without_descriptions(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert _runs("check", str(tmp_path)) == 2
    assert "no description (*.yaml)" in capsys.readouterr().err


def test_a_file_that_is_not_text(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "fleet.yaml").write_bytes(b"airline: \xff\xfe")
    assert _runs("check", str(tmp_path)) == 2
    assert "not UTF-8" in capsys.readouterr().err


@pytest.mark.parametrize("text", ["", "a: [1", "- just\n- a list\n", "hold: \x01", "fleet: {airline: 3}\n"])
def test_a_broken_file_is_a_finding(text: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "fleet").mkdir()
    (tmp_path / "fleet" / "fleet.yaml").write_text(text, encoding="utf-8")
    assert _runs("check", str(tmp_path)) == 1
    assert "fleet.yaml:1:" in capsys.readouterr().out
