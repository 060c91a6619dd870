"""The canonical record of a station: exact, the same everywhere, refused when anything in it was altered."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from jsonschema import Draft7Validator

from procgen.pipeline.checking import check
from procgen.pipeline.recording import record_of
from procgen.release import RecordError, identity, read_record, record_text
from procgen.release.codec import canonical
from procgen.release.schema import record_schema
from tests.release.records import record, text
from tests.support import demo_files, load_texts


@pytest.mark.parametrize("code", ["K1B", "N4T"])
def test_a_record_is_read_back_as_it_was(code: str) -> None:
    back = read_record(text(code))
    assert back == record(code)
    assert record_text(back) == text(code)
    site, given = back.manual, record(code).manual
    assert site.holds[0].diagrams == given.holds[0].diagrams
    assert site.holds[0].pages[0].blocks[0].steps[0].cause == given.holds[0].pages[0].blocks[0].steps[0].cause


@pytest.mark.parametrize("code", ["K1B", "N4T"])
def test_a_record_keeps_to_its_schema(code: str) -> None:
    schema = record_schema()
    Draft7Validator.check_schema(schema)
    assert [error.message for error in Draft7Validator(schema).iter_errors(json.loads(text(code)))] == []


def test_a_record_names_every_file_it_was_made_from_and_no_other() -> None:
    assert set(record("N4T").inputs) == {
        "<hazards.yaml>",
        "N4T/station.yaml",
        *(f"N4T/procedures/{one.name}.yaml" for one in record("N4T").manual.station.procedures),
        "fleet/fleet.yaml",
        *(f"fleet/holds/{one.hold.name}.yaml" for one in record("N4T").manual.holds),
    }
    assert "K1B/procedures/sr-aft-two-units.yaml" in record("K1B").inputs
    assert "N4T/procedures/sr-aft-evening.yaml" in record("N4T").inputs
    assert record("N4T").inputs["N4T/station.yaml"].text == demo_files()["N4T/station.yaml"]


def test_the_order_in_which_files_are_read_changes_nothing() -> None:
    files = demo_files()
    backwards = check(load_texts({name: files[name] for name in reversed(list(files))}))
    again = record_text(record_of(backwards, backwards.network.stations["N4T"]))
    assert identity(again) == identity(text("N4T"))


def _edited(old: str, new: str) -> str:
    assert old in text("N4T")
    return text("N4T").replace(old, new, 1)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('"title":"Norrholm', '"title":"Norrhelm', None),
        ("mass-unit: lb", "mass-unit: kg", "inputs/N4T/station.yaml: the text is not the one its hash"),
        ('"format":1', '"format":99', "format 99 is not one we read"),
        ('"format":1', '"format":1.0', "1.0 is no exact number"),
        ('"format":1', '"format":NaN', "NaN is no exact number"),
        ('"format":1', '"format":1,"format":1', "not the canonical text"),
        ('"format":1,', "", "no format number"),
        ('"format":1,"inputs"', '"format": 1,"inputs"', "not the canonical text"),
        ('"holds":[{', '"holds":[{"legend":"",', "not the canonical text"),
        ('"mass_unit":"lb"', '"mass_unit":"\\ud800"', "not the canonical text"),
        ("}\n", "", "not JSON"),
    ],
)
def test_an_altered_record_is_refused_or_has_another_identity(old: str, new: str, says: str | None) -> None:
    altered = _edited(old, new)
    assert identity(altered) != identity(text("N4T"))
    if says is not None:
        with pytest.raises(RecordError, match=says.replace("(", r"\(")):
            read_record(altered)


def test_a_default_that_is_written_out_is_refused() -> None:
    data = json.loads(text("N4T"))
    data["manual"]["holds"][0]["why_no_page"] = []
    with pytest.raises(RecordError, match="a default is written out"):
        read_record(canonical(data) + "\n")


def test_only_what_is_said_changes_the_identity() -> None:
    """The identity is that of the content: another version of the program is another maker, and says so."""
    assert record_text(replace(record("N4T"), made_by="0")) != text("N4T")
    assert record_text(replace(record("N4T"))) == text("N4T")
