"""`procgen limits --section ...`: every section as text and JSON, given pieces, and wrong words."""

from __future__ import annotations

import json

import pytest

from procgen.cli.main import main
from tests.support import STATIONS


def _limits(*arguments: str) -> int:
    try:
        return main(["limits", *arguments, "--stations", str(STATIONS)])
    except SystemExit as end:
        return int(str(end.code))


@pytest.mark.parametrize(
    ("hold", "section", "words"),
    [
        ("SR-AFT", "floor", "one foot, skid or wheel"),
        ("SR-AFT", "tie-down", "cargo strap"),
        ("MR-FWD", "hand", "AKH at its maximum"),
        ("SR-AFT", "stability", "SR-AFT 41 passes 44"),
        ("SR-AFT", "wind", "18.0 m/s"),
        ("BK-AFT", "times", "900 s"),
        ("SR-AFT", "notes", "Dry ice"),
    ],
)
def test_each_section_of_figures_prints(
    hold: str, section: str, words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert _limits(hold, "--section", section) == 0
    assert words in capsys.readouterr().out
    assert _limits(hold, "--section", section, "--format", "json") == 0
    printed = json.loads(capsys.readouterr().out)
    assert printed["of"] == hold
    assert words in json.dumps(printed)
    rows = [row for table in printed["tables"] for row in table["rows"]]
    assert rows
    for figure in (figure for row in rows for figure in row["figures"]):
        assert (figure["value"] is not None) is (not figure["reasons"])


def test_a_hold_that_tips_its_aircraft_alone_says_so(capsys: pytest.CaptureFixture[str]) -> None:
    assert _limits("MX-AFT", "--section", "stability") == 0
    text = capsys.readouterr().out
    assert "A tail stand is needed" in text
    assert "NOT MET" in text


def test_every_figure_says_why_as_fields(capsys: pytest.CaptureFixture[str]) -> None:
    """Hand-worked as in tests/limits/test_figure_tables.py: 60 cm square on the floor of SR-AFT, 263.5 kg."""
    assert _limits("SR-AFT", "--section", "floor", "--format", "json") == 0
    tables = {table["name"]: table for table in json.loads(capsys.readouterr().out)["tables"]}
    (row,) = [row for row in tables["floor-footprints"]["rows"] if row["labels"] == ["60 cm"]]
    figure = row["figures"][0]
    assert (figure["shown"], figure["value"], figure["unit"]) == ("263 kg", "263.52", "kg")
    assert (figure["rounded"], figure["governs"]) == ("down", "area load")
    assert figure["sources"]
    assert figure["places"][0]["line"] > 0
    assert figure["places"][0]["file"].endswith("fleet/holds/SR-AFT.yaml")
    assert {other["title"] for other in figure["others"]} == {"running load", "contact load"}


FOUR_FEET = ("--mass", "600 kg", "--footprint", "1.2 m x 0.8 m", "--supports", "4", "--face", "10cm x 10cm")


def test_a_piece_on_the_floor_with_and_without_boards(capsys: pytest.CaptureFixture[str]) -> None:
    """Hand-worked: four feet of 10 x 10 cm carry 150 kg each: 15 000 kg/m2 of 4900. On boards of 38 mm the
    faces are 17.6 x 17.6 cm: 150 / 0.030976 = 4842.5 kg/m2; on 37 mm 17.4 cm: 4954.4 kg/m2, too much.
    """
    floor = ("SR-AFT", "--section", "floor", *FOUR_FEET)
    assert _limits(*floor) == 1
    text = capsys.readouterr().out
    assert "15 000 kg/m2 NOT MET" in text
    assert "38 mm" in text
    assert _limits(*floor, "--board-thickness", "38 mm") == 0
    assert "4 843 kg/m2" in capsys.readouterr().out
    assert _limits(*floor, "--board-thickness", "37 mm") == 1
    assert "4 955 kg/m2 NOT MET" in capsys.readouterr().out


def test_a_piece_through_the_doors(capsys: pytest.CaptureFixture[str]) -> None:
    asked = ("SR-AFT", "--section", "doors", "--height", "0.9 m")
    assert _limits(*asked, "--footprint", "0.6 m x 1.8 m", "--format", "json") == 0
    (table,) = json.loads(capsys.readouterr().out)["tables"]
    figure = table["rows"][0]["figures"][0]
    assert figure["met"] is True
    assert len(figure["others"]) == 2
    assert figure["places"]
    longest = int(figure["value"])
    assert _limits(*asked, "--footprint", f"{longest} mm x 0.6 m") == 0
    assert _limits(*asked, "--footprint", f"{longest + 1} mm x 0.6 m") == 1
    assert _limits("SR-AFT", "--section", "doors", "--footprint", "1 m x 1 m", "--height", "9 m") == 1
    assert "the door is" in capsys.readouterr().out


def test_a_strap_of_a_given_rating(capsys: pytest.CaptureFixture[str]) -> None:
    """Hand-worked: 0.9 kN at 45/45 counts 0.45 kN forward: 100 kg x 1.5 g = 1471 N / 450 N: 4."""
    asked = ("SR-AFT", "--section", "tie-down", "--mass", "100 kg", "--angles", "45/45")
    assert _limits(*asked, "--strap", "0.9 kN", "--format", "json") == 0
    (table,) = json.loads(capsys.readouterr().out)["tables"]
    figure = table["rows"][0]["figures"][table["columns"].index("forward")]
    assert (figure["value"], figure["governs"]) == (4, "strap: a strap of 0.9 kN")
    assert _limits("SR-AFT", "--section", "tie-down", "--angles", "0/45") == 1
    assert "holds nothing up" in capsys.readouterr().out


def test_a_crew_for_a_mass_and_a_hold_that_forbids_it(capsys: pytest.CaptureFixture[str]) -> None:
    """Hand-worked: 700 kg x 9.80665 x 4 % = 274.6 N / 100 N: 3."""
    assert _limits("MR-FWD", "--section", "hand", "--mass", "700 kg", "--why") == 0
    assert "3 people" in capsys.readouterr().out
    assert _limits("SR-AFT", "--section", "hand", "--mass", "700 kg") == 1
    assert "does not allow" in capsys.readouterr().out


@pytest.mark.parametrize("section", ["missing", "doors"])
def test_missing_and_doors_say_their_places(section: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert _limits("SR-AFT", "--section", section, "--format", "json") == 0
    printed = json.loads(capsys.readouterr().out)
    holders = (
        [cell["before"] for cell in printed["cells"]] if section == "missing" else list(printed["doors"])
    )
    assert holders
    for one in holders:
        assert all(place["line"] and place["text"] for place in one["places"])
        assert one["places"]
    if section == "missing":
        assert holders[0]["others"]
        assert holders[0]["others"][0]["reckoning"]
    else:
        assert all(len(piece["others"]) == 2 for piece in holders[0]["pieces"] if piece["length"])


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ("hand;--mass;40", "“40” has no unit; add a unit of mass: kg"),
        ("hand;--mass;-40 kg", "not above zero"),
        ("hand;--mass;40 m", "mass"),
        ("floor;--mass;40 kg;--footprint;1x", "“1x” is not two sides"),
        ("floor;--mass;40 kg;--footprint;1 m x 0 m", "not above zero"),
        ("floor;--mass;40 kg", "needs both"),
        ("floor;--footprint;1 m x 1 m", "needs both"),
        ("floor;--board-thickness;2 cm", "give its --mass"),
        ("floor;--mass;40 kg;--mass;50 kg;--footprint;1 m x 1 m", "given 2 times"),
        ("floor;--mass;40 kg;--footprint;1 m x 1 m;--supports;4", "need --face"),
        ("floor;--mass;40 kg;--footprint;1 m x 1 m;--supports;0", "not above zero"),
        ("floor;--mass;4 kg;--footprint;1 m x 1 m;--supports;4;--face;1 m x 1 m", "more than the footprint"),
        ("floor;--mass;4 kg;--footprint;1 m x 1 m;--face;2 m x 1 cm", "wider than the footprint"),
        ("floor;--mass;4 kg;--footprint;1 m x 1 m;--tare;-1 kg", "below zero"),
        ("floor;--mass;4 kg;--footprint;1 m x 1 m;--board-thickness;0 mm", "not above zero"),
        ("doors;--footprint;1 m x 1 m", "needs both"),
        ("tie-down;--strap;rope", "no strap of SR-AFT (straps: cargo-strap"),
        ("tie-down;--strap;0 kN", "not above zero"),
        ("tie-down;--angles;95/3", "from 0 to 90 degrees"),
        ("tie-down;--angles;45", "as in 45/30"),
        ("wind;--mass;4 kg", "belongs to --section floor"),
        ("floor;--unit;lb", "belongs to --section positions"),
        ("times;--station;X9X", "no station X9X works SR-AFT (stations: K1B, N4T)"),
        ("nose", "invalid choice"),
    ],
)
def test_wrong_words_are_answered_with_a_way_out(
    arguments: str, said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert _limits("SR-AFT", "--section", *arguments.split(";")) == 2
    output = capsys.readouterr()
    assert said in output.err
    assert output.out == ""
