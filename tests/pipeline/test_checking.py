"""The gates between the stages."""

from __future__ import annotations

from pathlib import Path

from procgen.disk.stations import read_stations
from procgen.pipeline.checking import check, load_inputs
from tests.support import demo_files, load_texts

STATION = "K1B/station.yaml"
WRITTEN = "K1B/procedures/sr-aft-two-units.yaml"


def _rules(files: dict[str, str]) -> list[tuple[str, str]]:
    return [(finding.rule, finding.place.file) for finding in check(load_texts(files)).findings]


def test_the_demonstration_is_clean_and_publishable() -> None:
    checked = check(load_texts(dict(demo_files())))
    assert checked.findings == ()
    assert checked.publishable
    assert set(checked.written) == set(checked.network.stations)


def test_a_station_that_cannot_be_read_does_not_hide_its_procedures() -> None:
    files = dict(demo_files())
    files[WRITTEN] = files[WRITTEN].replace("  - raise: lock-41\n", "")
    alone = _rules(files)
    assert alone == [("restraint-left-down", WRITTEN)] or alone == [("released-early", WRITTEN)]
    files[STATION] = files[STATION].replace("mass-unit: kg", "mass-unit: stone")
    rules = _rules(files)
    assert alone[0] in rules
    assert any(file == STATION for _, file in rules)


def test_what_is_wrong_in_a_hold_is_not_said_again_of_what_is_derived_from_it() -> None:
    files = dict(demo_files())
    hold = "fleet/holds/SR-AFT.yaml"
    cut = files[hold].replace("held-by: [lock-41, lock-42, rails]", "held-by: [lock-41, rails]")
    assert cut != files[hold]
    files[hold] = cut
    findings = check(load_texts(files)).findings
    assert any(finding.rule == "position-unrestrained" for finding in findings)
    written = {name for name in files if "/procedures/" in name}
    # A written procedure speaks for itself; a derived one would only repeat what the data did.
    assert {finding.place.file for finding in findings} <= {hold, *written}
    derived = {"SR-AFT-loading", "SR-AFT-unloading"}
    assert not any(name in derived for finding in findings for _, name in finding.subject)


def test_one_slip_in_the_fleet_is_not_said_again_by_what_names_it() -> None:
    files = dict(demo_files())
    fleet = "fleet/fleet.yaml"
    files[fleet] = files[fleet].replace("max-gross: 1588 kg, ", "")
    assert [rule for rule in _rules(files) if rule[1] != WRITTEN] == [("missing-key", fleet)]


def test_a_file_that_nothing_reads_is_named(tmp_path: Path) -> None:
    """A procedure saved as text would never be checked, and nobody would miss it."""
    for name, text in demo_files().items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(text, "utf-8")
    (tmp_path / "K1B" / "procedures" / "mine.txt").write_bytes(b"\xff")
    (tmp_path / "K1B" / "procedures" / "README.md").write_text("Ours.", "utf-8")
    (finding,) = check(load_inputs(read_stations(tmp_path))).findings
    assert (finding.rule, finding.place.file) == ("file-not-read", "K1B/procedures/mine.txt")
