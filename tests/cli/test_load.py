"""`procgen load`: a load is judged whole or not at all."""

from pathlib import Path

import pytest

from procgen.cli.main import main

STATIONS = str(Path(__file__).parents[2] / "stations")


def _load(rows: str, folder: Path) -> int:
    file = folder / "load.csv"
    file.write_text(f"position,type,mass\n{rows}", "utf-8")
    return main(["load", str(file), "--hold", "SR-AFT", "--stations", STATIONS])


def test_a_load_with_a_row_that_cannot_be_read_is_not_judged(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert _load("41,AKH,1100 kg\n44,AKH,1000\n", tmp_path) == 1
    output = capsys.readouterr()
    assert "load.csv:3:8: error" in output.out
    assert "within every limit" not in output.out
    assert "not judged" in output.err


def test_a_load_within_its_limits_and_one_beyond_them(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """41 to 44 full are 1134 + 1134 + 1134 + 1000 = 4402 kg; the hold takes 4000 kg."""
    assert _load("41,AKH,900 kg\n42,AKH,900 kg\n", tmp_path) == 0
    told = capsys.readouterr().out
    assert "within every limit" in told
    assert "900 kg (41) + 900 kg (42) = 1 800 kg of 4000 kg" in told
    full = "".join(f"{p},AKH,{m} kg\n" for p, m in ((41, 1134), (42, 1134), (43, 1134), (44, 1000)))
    assert _load(full, tmp_path) == 1
    assert "used 4 402 kg, limit 4 000 kg" in capsys.readouterr().out
