"""A given load: what is read from CSV and YAML, and each bad row at its line and column."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.cli.main import main
from procgen.limits.given import check_given
from procgen.load.given import given_load
from procgen.results.load_check import GivenUnit
from procgen.units import of
from tests.support import STATIONS, demo


def found(text: str, file: str = "load.csv") -> list[tuple[str, int, int]]:
    _, document, findings = given_load(file, text, demo().network)
    spans = [(finding.rule, document.span(finding.place)) for finding in findings]
    return [(rule, span.line, span.column) for rule, span in spans]


def test_csv_and_yaml_say_the_same() -> None:
    table = "position,type,mass,unit\n41,AKH,1050,kg\n42,AKH,900 kg\n"
    rows = "".join(f'  - {{position: "{n}", type: AKH, mass: {m} kg}}\n' for n, m in ((41, 1050), (42, 900)))
    tree = f"units:\n{rows}"
    from_table, _, none = given_load("a.csv", table, demo().network)
    from_tree, _, also_none = given_load("a.yaml", tree, demo().network, "SR-AFT")
    assert (none, also_none) == ((), ())
    assert (
        from_table
        == from_tree
        == (
            GivenUnit("SR-AFT", "41", "AKH", of(1050, "kg")),
            GivenUnit("SR-AFT", "42", "AKH", of(900, "kg")),
        )
    )


@pytest.mark.parametrize(
    ("row", "rule", "column"),
    [
        ("41,AKX,1050 kg", "unknown-name", 4),
        ("99,AKH,1050 kg", "unknown-name", 1),
        ("41,AKH,-900 kg", "quantity-not-positive", 8),
        ("41,AKH,0 kg", "quantity-not-positive", 8),
        ("41,AKH,1050", "quantity-without-unit", 8),
        ("41,AKH,1050 stone", "unknown-unit", 8),
        ("41,AKH,1050 m", "wrong-dimension", 8),
        ("41,AKH,heavy", "not-a-quantity", 8),
        ("41,AKH,", "missing-key", 1),
        ("41", "missing-key", 1),
        ("41,AKH,1050 kg,more", "unknown-key", 16),
    ],
)
def test_a_bad_row_is_found_at_its_place(row: str, rule: str, column: int) -> None:
    assert (rule, 3, column) in found(f"# a load\nposition,type,mass\n{row}\n")
    assert {one for one, _, _ in found(f"# a load\nposition,type,mass\n{row}\n")} == {rule}


def test_one_position_for_two_units_and_a_file_without_units() -> None:
    twice = "position,type,mass\n41,AKH,1 kg\n41,AKH,2 kg\n"
    assert found(twice) == [("bay-given-twice", 3, 1)]
    assert [rule for rule, _, _ in found("")] == ["missing-key"]
    assert [rule for rule, _, _ in found("hold: SR-AFT\n", "a.yaml")] == ["missing-key"]


@settings(deadline=None, max_examples=150)
@given(st.text(max_size=80))
def test_reading_never_raises(text: str) -> None:
    for file in ("a.csv", "a.yaml"):
        units, _, findings = given_load(file, text, demo().network)
        assert units or findings


@settings(deadline=None, max_examples=60)
@given(st.lists(st.integers(1, 1500), min_size=4, max_size=4), st.integers(0, 3), st.integers(1, 1500))
def test_an_accepted_load_stays_accepted_when_a_mass_falls(masses: list[int], which: int, less: int) -> None:
    """In a hold without an asymmetry limit."""
    network = demo().network
    hold = network.holds["SR-AFT"]
    names = list(hold.positions)

    def accepted(weights: list[int]) -> bool:
        units = [
            GivenUnit(hold.name, name, "AKH", of(w, "kg")) for name, w in zip(names, weights, strict=True)
        ]
        return check_given(hold, network.unit_types, units).met

    lighter = [min(mass, less) if index == which else mass for index, mass in enumerate(masses)]
    assert accepted(lighter) or not accepted(masses)


@pytest.mark.parametrize(
    ("last", "status", "first"), [("300", 0, "position 43"), ("1000", 1, "aft hold from")]
)
def test_the_command(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], last: str, status: int, first: str
) -> None:
    path = tmp_path / "load.csv"
    path.write_text(f"position,type,mass\n41,AKH,900 kg\n42,AKH,900 kg\n43,AKH,1100 kg\n44,AKH,{last} kg\n")
    asked = ["load", str(path), "--stations", str(STATIONS)]
    assert main(asked) == status
    assert "first to bind" in capsys.readouterr().out
    assert main([*asked, "--format", "json"]) == status
    data = json.loads(capsys.readouterr().out)
    assert data["met"] is (status == 0)
    assert data["holds"][0]["first"]["title"].startswith(first)
