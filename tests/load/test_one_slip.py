"""One slip is one finding, not twenty; and everything wrong is found in one run."""

from __future__ import annotations

import pytest

from tests.load.test_rules import FLEET, HOLD, STATION, STEPS
from tests.support import demo, demo_files, demo_with, load_texts

MISSPELT = [
    (HOLD, "restraints:\n", "restrants:\n"),
    (HOLD, "bays: ", "bay: "),
    (HOLD, "power:\n", "powr:\n"),
    (HOLD, "panels:\n", "panel:\n"),
    (HOLD, "controls:\n", "control:\n"),
    (HOLD, "\npositions: ", "\nposition: "),
    (HOLD, "sources:\n", "source:\n"),
    (HOLD, "positions: [centre, in, out, forward, aft]", "position: [centre, in, out, forward, aft]"),
    (HOLD, 'beside: ["44"]\n    stops: [aft]', 'besides: ["44"]\n    stops: [aft]'),
    (HOLD, 'between: ["42", "41"]', 'betwen: ["42", "41"]'),
    (
        HOLD,
        "[14.14 m, 15.70 m], y: [-0.79 m, 0.79 m], position",
        "[14.14 m, 15.70 m], y: [-0.79 m, 0.79 m], positon",
    ),
    (FLEET, "bases: ", "base: "),
    (FLEET, "unit-types:\n", "unit-type:\n"),
    (FLEET, "aircraft:\n", "aircrafts:\n"),
    (FLEET, "sources:\n", "source:\n"),
    (STATION, "holds: ", "hold: "),
    (STEPS, "units:\n", "unit:\n"),
]


@pytest.mark.parametrize(("file", "find", "put"), MISSPELT, ids=[put.strip() for _, _, put in MISSPELT])
def test_a_misspelt_key_is_the_only_finding(file: str, find: str, put: str) -> None:
    assert [finding.rule for finding in demo_with(file, find, put).findings] == ["unknown-key"]


def test_a_bay_with_a_bad_quantity_is_still_a_bay() -> None:
    loaded = demo_with(HOLD, '"42": {x: [12.52 m', '"42": {x: [12.52')
    assert [finding.rule for finding in loaded.findings] == ["quantity-without-unit"]
    assert "SR-AFT" not in loaded.network.holds


def test_a_bay_with_another_name_is_one_unknown_name_with_all_its_places() -> None:
    loaded = demo_with(HOLD, '"42": {x: [12.52 m', "B42: {x: [12.52 m")
    rules = [finding.rule for finding in loaded.findings]
    assert rules == ["position-not-described", "unknown-name"]
    assert len(loaded.findings[1].related) == 5


def test_what_depends_on_a_broken_hold_is_left_out_in_silence() -> None:
    network = demo_with(HOLD, "sill: 2.05 m", "sill: 2.05").network
    assert network.holds.keys() == demo().network.holds.keys() - {"SR-AFT"}
    for code, station in demo().network.stations.items():
        assert network.stations[code].holds == tuple(name for name in station.holds if name != "SR-AFT")
    assert network.stations["K1B"].procedures == ()


def test_a_bad_unit_type_leaves_the_rest_of_the_fleet() -> None:
    loaded = demo_with(FLEET, "tare: 79 kg", "tare: 79")
    assert [finding.rule for finding in loaded.findings] == ["quantity-without-unit"]
    assert loaded.network.unit_types.keys() == demo().network.unit_types.keys() - {"AKH"}
    assert loaded.network.holds.keys() == demo().network.holds.keys()
    assert loaded.network.stations["K1B"].procedures == (), "it names the bad type"


def test_a_bad_base_takes_its_unit_types_along_in_silence() -> None:
    loaded = demo_with(FLEET, "length: 1534 mm", "length: 1534")
    assert [finding.rule for finding in loaded.findings] == ["quantity-without-unit"]
    assert {unit.base.code for unit in demo().network.unit_types.values()} > {"K"}
    assert {unit.base.code for unit in loaded.network.unit_types.values()}.isdisjoint({"K"})


def test_a_file_that_is_no_yaml_keeps_its_name() -> None:
    loaded = load_texts({**demo_files(), HOLD: "hold: [SR-AFT"})
    assert [finding.rule for finding in loaded.findings] == ["yaml-syntax"]


def test_a_hold_called_otherwise_than_its_file_can_still_be_named_by_it() -> None:
    loaded = demo_with(HOLD, "hold: SR-AFT", "hold: SR-AFTER")
    assert [finding.rule for finding in loaded.findings] == ["name-differs-from-file"]


def test_a_broken_station_keeps_its_procedures_to_be_checked() -> None:
    loaded = demo_with(STATION, "number: 3", "number: three")
    assert [finding.rule for finding in loaded.findings] == ["wrong-type"]
    assert "K1B" not in loaded.network.stations
    assert STEPS in loaded.procedures


def test_everything_wrong_is_found_in_one_run() -> None:
    files = dict(demo_files())
    files[HOLD] = (
        files[HOLD]
        .replace("sill: 2.05 m", "sill: 2.05")
        .replace("side: right", "side: starboard")
        .replace("held-by: [end-stop,", "held-by: [endstop,")
        .replace("source: WB 2-1", "source: WX 2-1")
    )
    files[STEPS] = files[STEPS].replace("- lower: sill-lock", "- lowr: sill-lock")
    files[FLEET] = files[FLEET].replace("    title: Skua 180\n", "    titel: Skua 180\n")
    files[STATION] = files[STATION].replace('"2026-11-20"', '"2026-20-11"')
    found = [(finding.place.file, finding.rule) for finding in load_texts(files).findings]
    assert found == [
        (STEPS, "unknown-verb"),
        (STATION, "bad-date"),
        (FLEET, "unknown-key"),
        (HOLD, "unknown-name"),
        (HOLD, "unknown-word"),
        (HOLD, "quantity-without-unit"),
        (HOLD, "unknown-name"),
    ]


def test_findings_name_what_they_are_about() -> None:
    lower = demo_with(STEPS, "- lower: sill-lock", "- lowr: sill-lock")
    (kind, number) = lower.findings[0].subject[0]
    assert kind == "step"
    steps = demo_files()[STEPS].split("\nsteps:\n")[1].split("  - ")[1:]
    assert steps[int(number) - 1].startswith("lower: sill-lock")
    bay = demo_with(HOLD, '"42": {x: [12.52 m', '"42": {x: [12.52').findings[0]
    assert bay.subject == (("bay", "42"),)
