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
from procgen.report.load_check import load_text
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


def told(text: str, file: str = "load.csv") -> list[tuple[int, int, str]]:
    """Line, column, and message with the way out of each finding."""
    _, document, findings = given_load(file, text, demo().network)
    spans = [(document.span(finding.place), finding) for finding in findings]
    return [(span.line, span.column, f"{one.message}; {one.suggestion}") for span, one in spans]


@pytest.mark.parametrize(
    ("text", "line", "column", "says"),
    [
        ("position,mass\n41,900 kg\n42,900 kg\n", 1, 1, "no column is named “type”"),
        ("41,AKH,900 kg\n42,AKH,900 kg\n", 1, 1, "write a first line “position,type,mass”"),
        ("position,type,mass,mass\n41,AKH,900 kg,800 kg\n", 1, 20, "two columns are named “mass”"),
        ("position,type,mass\n41,AKH,900,5 kg\n", 2, 12, "write the decimal point as “.”"),
        ("position,type,mass\n41,AKH,1,050 kg\n", 2, 10, "thousands with a space"),
        ("position;type;mass\n41;AKH;900,5 kg\n", 2, 8, "write the decimal point as “.”"),
        ('position,type,mass\n41,AKH,"900 kg\n', 2, 8, '“"900 kg”'),
        ('position,type,mass\n41,"AKH,900 kg\n', 2, 1, "the unit has no mass"),
        ("position,type,mas\n41,AKH,900 kg\n", 1, 15, "did you mean “mass”?"),
    ],
)
def test_the_cause_is_the_first_finding(text: str, line: int, column: int, says: str) -> None:
    found_first = told(text)[0]
    assert found_first[:2] == (line, column), found_first
    assert says in found_first[2]


@pytest.mark.parametrize(
    ("text", "line", "column", "says"),
    [
        ("hold: SRAFT\nunits:\n- {position: 41, type: AKH, mass: 900 kg}\n", 1, 7, "did you mean “SR-AFT”?"),
        ("hold: SR-AFT\nunit:\n- {position: 41, type: AKH, mass: 900 kg}\n", 2, 1, "“units”"),
        ("hold: SR-AFT\ndate: 3\nunits:\n- {position: 41, type: AKH, mass: 900 kg}\n", 2, 1, "“date”"),
    ],
)
def test_so_it_is_in_yaml(text: str, line: int, column: int, says: str) -> None:
    ((*at, words), *_) = sorted(told(text, "a.yaml"), key=lambda one: says not in one[2])
    assert at == [line, column]
    assert says in words


def test_everything_wrong_is_found_in_one_run() -> None:
    text = "position,type,mass\n41,AKX,900 kg\n42,AKH,1,050 kg\n43,AKH,heavy\n"
    assert found(text) == [("unknown-name", 2, 4), ("unknown-key", 3, 10), ("not-a-quantity", 4, 8)]


@pytest.mark.parametrize(
    "text",
    [
        "\ufeffposition,type,mass\n41,AKH,900 kg\n",
        "position,type,mass\r\n41,AKH,900 kg\r\n",
        "position;type;mass\n41;AKH;900 kg\n",
        "Position\tType\tMass\n\n41\tAKH\t900 kg\n\n",
        'position,type,mass\n"41" , "AKH","900 kg"\n',
        "# a load\nmass,unit,type,position\n900,kg,AKH,41\n",
    ],
)
def test_tables_as_programs_write_them(text: str) -> None:
    units, _, findings = given_load("load.csv", text, demo().network)
    assert (units, findings) == ((GivenUnit("SR-AFT", "41", "AKH", of(900, "kg")),), ())


def test_what_counts_in_full_for_several_units_is_said() -> None:
    """Lock 41 stands between 41 and 42: up it holds both, forward only 42 and aft only 41; the side rails
    hold 41 to 43.
    """
    network = demo().network
    hold = network.holds["SR-AFT"]

    def shared(*names: str) -> dict[str, tuple[list[str], list[str]]]:
        units = [GivenUnit(hold.name, name, "AKH", of(900, "kg")) for name in names]
        found_check = check_given(hold, network.unit_types, units)
        text = load_text([found_check])
        for one in found_check.counted_in_full:
            assert f"{one.title} (" in text
        assert ("Counted in full" in text) is bool(found_check.counted_in_full)
        return {
            one.restraint: (sorted(map(str, one.directions)), list(one.positions))
            for one in found_check.counted_in_full
        }

    assert shared("41") == shared() == {}
    assert shared("41", "42") == {
        "lock-41": (["up"], ["41", "42"]),
        "rails": (["left", "right", "up"], ["41", "42"]),
    }
    assert shared("41", "43") == {"rails": (["left", "right", "up"], ["41", "43"])}


def test_a_unit_lighter_than_empty_is_refused() -> None:
    """AKH weighs 79 kg empty: at 79 kg it is accepted, at 78.9 kg nobody knows what stands there."""
    network = demo().network
    hold = network.holds["SR-AFT"]

    def check(mass: str) -> tuple[tuple[str, ...], ...]:
        unit = GivenUnit(hold.name, "41", "AKH", of(mass, "kg"))
        found_check = check_given(hold, network.unit_types, [unit])
        assert found_check.met is not bool(found_check.refused)
        return tuple(one.reasons for one in found_check.refused)

    assert check("79") == ()
    ((reason,),) = check("78.9")
    assert reason == "78.9 kg is less than it weighs empty (79 kg): give the gross mass"


@settings(deadline=None, max_examples=150)
@given(st.text(max_size=80))
def test_reading_never_raises(text: str) -> None:
    for file in ("a.csv", "a.yaml"):
        units, _, findings = given_load(file, text, demo().network)
        assert units or findings


@settings(deadline=None, max_examples=60)
@given(st.lists(st.integers(79, 1500), min_size=4, max_size=4), st.integers(0, 3), st.integers(79, 1500))
def test_an_accepted_load_stays_accepted_when_a_mass_falls(masses: list[int], which: int, less: int) -> None:
    """In a hold without an asymmetry limit; 79 kg is what the unit weighs empty."""
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
    constraints = data["holds"][0]["constraints"]
    for one in constraints:
        assert one["sources"]
        assert all(place["line"] > 0 and place["file"].endswith(".yaml") for place in one["places"])
        assert bool(one["others"]) is (one["kind"] == "position")
        kinds = {other["kind"] for other in one["others"]}
        assert not kinds or kinds >= {"running-load", "restraint-up"}
    assert main([*asked, "--why"]) == status
    text = capsys.readouterr().out
    for one in constraints:
        assert one["reckoning"] in text
        assert all(other["reckoning"] in text for other in one["others"])
    assert data["holds"][0]["first"]["title"].startswith(first)
