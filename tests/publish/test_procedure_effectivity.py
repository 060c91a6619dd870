"""A procedure written by hand for some of the aircraft that have its hold: read, shown, compared, checked."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from pathlib import Path

import pytest

from procgen.cli.main import main
from procgen.load import load_procedure
from procgen.pipeline.building import station_site
from procgen.pipeline.checking import check, load_inputs
from procgen.publish import station_tree
from procgen.release.pages import effective_pages
from procgen.report.step_form import procedure_data
from procgen.results.page import StationSite
from tests.diff.versions import explain, told
from tests.publish.sites import templates
from tests.support import schemas
from tests.whole_check import DAY, edited, example_files, findings_of

FILE = "S1A/procedures/load-all.yaml"
HOLD = "fleet/holds/ONE.yaml"
ONLY = "effectivity: {configurations: [MOD-2]}"
OF_AN_AIRCRAFT = "of an aircraft that has this hold"


def with_effectivity(line: str, files: Mapping[str, str] | None = None) -> Mapping[str, str]:
    """The example, whose hand-written procedure says which aircraft it is for."""
    return edited(files or example_files(), FILE, "operation: loading", f"operation: loading\n{line}")


@cache
def narrowed() -> StationSite:
    """The site of its station: the procedure is for Q2-F2 only, the hold for Q2-F1 too."""
    checked = check(load_inputs(with_effectivity(ONLY)))
    return station_site(checked, checked.network.stations["S1A"])


def test_it_is_read_and_written_again() -> None:
    loaded, findings = findings_of(with_effectivity(ONLY))
    assert findings == ()
    procedure = next(one for one in loaded.network.stations["S1A"].procedures if one.name == "load-all")
    assert procedure.effectivity is not None
    assert procedure.effectivity.configurations == ("MOD-2",)
    text = json.dumps(procedure_data(procedure))
    assert load_procedure("again.json", text, loaded.network, schemas())[0] == procedure


@pytest.mark.parametrize(
    ("line", "rule", "says"),
    [
        ("effectivity: {registrations: [Q2-F9]}", "unknown-name", f"no registration {OF_AN_AIRCRAFT}"),
        (
            "effectivity: {configurations: [MOD-3]}",
            "unknown-name",
            f"no configuration {OF_AN_AIRCRAFT}",
        ),
        ("effectivity: {registrations: []}", "missing-value", "applies to no aircraft"),
        ("effectivity: {}", "missing-value", "applies to no aircraft"),
        ("effectivity: MOD-2", "wrong-type", "effectivity"),
    ],
)
def test_what_it_cannot_be_is_found(line: str, rule: str, says: str) -> None:
    (finding,) = findings_of(with_effectivity(line))[1]
    assert (finding.rule, finding.place.file) == (rule, FILE)
    assert says in finding.message + str(finding.place)


def test_it_names_no_aircraft_that_has_the_hold_as_described_elsewhere() -> None:
    other = edited(
        example_files(),
        HOLD,
        "aircraft: FINCH-90",
        "aircraft: FINCH-90\neffectivity: {registrations: [Q2-F1]}",
    )
    found = [one for one in findings_of(with_effectivity(ONLY, other))[1] if one.place.file == FILE]
    assert [one.rule for one in found] == ["unknown-name"]


def test_its_pages_say_whom_they_are_for_and_lead_the_others_to_the_derived_one() -> None:
    tree = station_tree(narrowed(), templates())
    for file in ("procedures/load-all.md", "cards/load-all.html"):
        text = tree[f"docs/{file}"]
        assert "Applies to Q2-F2 only, not to Q2-F1." in text, file
        there = file.replace("load-all", "ONE-loading").replace(".md", ".html")
        assert f'href="../{there}" data-marks="Q2-F1"' in text, file
    assert "Applies to every" in tree["docs/procedures/ONE-loading.md"]
    assert "<strong>for Q2-F2 only</strong>" in tree["docs/holds/ONE.md"]
    assert 'data-page-for="Q2-F2"' in tree["docs/index.md"]
    listed = {page.file: page.applies for page in effective_pages(narrowed())}
    assert listed["procedures/load-all.html"] == listed["cards/load-all.html"] == "Q2-F2"
    assert listed["procedures/ONE-loading.html"] == ""


def alone(line: str = "") -> Mapping[str, str]:
    """The files of the one station."""
    files = with_effectivity(line) if line else example_files()
    return {name: text for name, text in files.items() if not name.startswith("S3C")}


def test_a_change_is_told_aircraft_by_aircraft() -> None:
    less = explain(alone(), alone(ONLY))
    assert told(less.differences) == ["changed changed ONE/pages/load-all/applies-to/Q2-F1"]
    assert less.differences[0].why == "for this aircraft the derived procedure counts now"
    assert {place.file for edit in less.edits for place in edit.places} == {FILE}
    more = explain(alone(ONLY), alone())
    assert told(more.differences) == ["loosened changed ONE/pages/load-all/applies-to/Q2-F1"]
    same = explain(alone(ONLY), alone("effectivity: {registrations: [Q2-F2]}"))
    assert told(same.differences) == []


@pytest.fixture
def stations(tmp_path: Path) -> Path:
    """The example on disk, with a slip in the procedure that is for Q2-F2 only."""
    for name, text in edited(with_effectivity(ONLY), FILE, "  - check: engines-stopped\n", "").items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(text, "utf-8")
    return tmp_path


@pytest.mark.parametrize(("mark", "status"), [("Q2-F2", 1), ("q2-f1", 0)])
def test_a_check_for_one_aircraft_shows_what_is_found_in_its_files_and_counts_the_rest(
    mark: str, status: int, stations: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", str(stations), "--on", DAY, "--registration", mark]) == status
    said = capsys.readouterr().out
    assert ("[required-check-missing]" in said) is (mark == "Q2-F2")
    assert f"{mark.upper()}: holds ONE, TWO; procedures written by hand: " in said
    hidden = f"Not shown, because not for {mark.upper()}: 1 finding in {FILE}."
    assert (hidden in said) is (status == 0)


def test_a_check_for_an_aircraft_that_nobody_knows_does_not_run(
    stations: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", str(stations), "--registration", "Q2-F8"]) == 2
    assert "no aircraft is registered Q2-F8; did you mean" in capsys.readouterr().err
