"""`procgen sequence`: the order of an aircraft's holds, as text and JSON, and wrong input."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from procgen.cli.main import main
from tests.support import STATIONS

BALANCED = """\
position,type,mass
11L,AKE,1000 kg
11R,AKE,1000 kg
35L,AKE,1000 kg
35R,AKE,1000 kg
"""


def _sequence(*arguments: str) -> int:
    try:
        return main(["sequence", *arguments, "--stations", str(STATIONS)])
    except SystemExit as end:
        return int(str(end.code))


def _file(folder: Path, text: str, name: str = "load.csv") -> str:
    file = folder / name
    file.write_text(text, "utf-8")
    return str(file)


def test_a_full_aircraft_at_a_station(capsys: pytest.CaptureFixture[str]) -> None:
    assert _sequence("PETREL-500", "--station", "K1B") == 0
    text = capsys.readouterr().out
    assert text.index("Load TR-FWD, then ") < text.index("PETREL-500, unloading")
    assert "MX-AFT 31L passes 34R" in text
    assert _sequence("SKUA-180", "--station", "K1B", "--operation", "loading", "--format", "json") == 0
    (one,) = json.loads(capsys.readouterr().out)["sequences"]
    assert (one["order"], one["tail_stand"], one["any_order"]) == (["SR-AFT"], False, True)
    assert [procedure["hold"] for procedure in one["procedures"]] == ["SR-AFT"]


def test_a_given_load_says_why(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = _file(tmp_path, BALANCED)
    assert _sequence("PETREL-500", file, "--operation", "loading", "--steps", "--why") == 0
    text = capsys.readouterr().out
    assert "at least 5 %" in text
    assert "fleet/fleet.yaml:" in text
    assert "MX-AFT, loading: 2 units" in text
    assert _sequence("PETREL-500", file, "--operation", "loading", "--format", "json") == 0
    (one,) = json.loads(capsys.readouterr().out)["sequences"]
    assert [unit["position"] for unit in one["units"]] == ["11L", "11R", "35L", "35R"]
    share = one["table"]["rows"][0]["figures"][1]
    assert share["sources"] == ["PWB 1-3"]
    assert share["places"][0]["line"] > 0
    assert one["worst"]["met"] is True


def test_a_tail_stand_is_a_finding(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    rows = [f"{number}{side},AKE,1300 kg" for number in (31, 32, 33, 34, 35) for side in "LR"]
    file = _file(tmp_path, "position,type,mass\n" + "\n".join(rows) + "\n")
    assert _sequence("PETREL-500", file, "--operation", "loading") == 1
    text = capsys.readouterr().out
    assert "A tail stand is needed" in text
    assert "NOT MET" in text
    assert _sequence("PETREL-500", file, "--operation", "loading", "--format", "json") == 1
    (one,) = json.loads(capsys.readouterr().out)["sequences"]
    assert one["tail_stand"] is True
    assert one["crossed"]["met"] is False


def test_what_stays_aboard_helps(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    rows = [f"{number}{side},AKE,1300 kg" for number in (31, 32, 33, 34, 35) for side in "LR"]
    file = _file(tmp_path, "position,type,mass\n" + "\n".join(rows) + "\n")
    forward = [f"{number}{side},AKE,1200 kg" for number in (11, 12) for side in "LR"]
    stays = _file(tmp_path, "position,type,mass\n" + "\n".join(forward) + "\n", "stays.csv")
    assert _sequence("PETREL-500", file, "--aboard", stays) == 0
    assert "11L in" not in capsys.readouterr().out
    assert _sequence("PETREL-500", file, "--aboard", file) == 2
    assert "is said to stay aboard" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        ("41,AKH,900 kg\n", "load.csv:2:1: error: there is no position “41”"),
        ("11L,AKE,900\n", "load.csv:2:9: error"),
        ("11L,AKE,-900 kg\n", "load.csv:2:9: error"),
        ("11L,AKX,900 kg\n", "AKX"),
        ("", "names no units"),
        ("11L,AKE,1600 kg\n", "position 11L: 1 600 kg is above"),
    ],
)
def test_what_is_wrong_in_a_load_is_a_finding(
    rows: str, said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = _file(tmp_path, f"position,type,mass\n{rows}")
    assert _sequence("PETREL-500", file) == 1
    text = capsys.readouterr().out
    assert said in text
    assert "stays furthest" not in text
    assert _sequence("PETREL-500", file, "--format", "json") == 1
    assert json.loads(capsys.readouterr().out)


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["PETREL-50"], "did you mean PETREL-500?"),
        (["PETREL-500", "nowhere.csv"], "nowhere.csv"),
        (["PETREL-500", "--station", "X1X"], "there is no station X1X (stations: K1B, N4T)"),
        (["PETREL-500", "--station", "N4T"], "no hold of PETREL-500 at N4T"),
        (["PETREL-500", "--operation", "both"], "invalid choice"),
        ([], "AIRCRAFT"),
    ],
)
def test_wrong_words_are_answered_with_a_way_out(
    arguments: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert _sequence(*arguments) == 2
    assert said in capsys.readouterr().err
