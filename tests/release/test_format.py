"""Records that were given out are read for ever: no change of the record classes goes unnoticed."""

from __future__ import annotations

import copy
import json
from typing import Any

import pytest
from jsonschema import Draft7Validator

from procgen.publish import station_tree
from procgen.release import read_record, record_text
from procgen.release.schema import breaks, record_schema
from procgen.results.edition import Edition
from procgen.results.record import FORMAT
from tests.publish.sites import templates
from tests.release.keep import KEPT

WHAT_TO_DO = (
    "the record classes no longer read what was given out. Give a new field a default that means what"
    " records without it meant; for anything else raise FORMAT in procgen/results/record.py, keep a reader"
    " for the old format, and keep a record of the new one (python -m tests.release.keep). Until the"
    " program's own first release, keeping the record again is enough."
)


def kept(name: str) -> str:
    return (KEPT / name).read_text("utf-8")


@pytest.mark.parametrize("number", range(1, FORMAT + 1))
def test_a_kept_record_of_every_format_is_read_and_shown(number: int) -> None:
    text = kept(f"record-{number}.json")
    record = read_record(text)
    if number == FORMAT:
        assert record_text(record) == text, WHAT_TO_DO
    tree = station_tree(Edition(record.manual), templates())
    words = [
        step.text
        for hold in record.manual.holds
        for page in hold.pages
        for b in page.blocks
        for step in b.steps
    ]
    assert len(words) > 20
    holds = record.manual.holds
    cards = sum(len(hold.pages) for hold in holds)
    short = sum(len(hold.out_of_service.procedures) for hold in holds if hold.out_of_service is not None)
    assert sum(path.endswith(".html") for path in tree) == cards + short


def test_the_classes_still_read_what_the_kept_schema_allows() -> None:
    schema = json.loads(kept(f"record-{FORMAT}.schema.json"))
    assert list(breaks(schema, record_schema())) == [], WHAT_TO_DO


def test_the_kept_record_keeps_to_both_schemas() -> None:
    data = json.loads(kept(f"record-{FORMAT}.json"))
    for schema in (json.loads(kept(f"record-{FORMAT}.schema.json")), record_schema()):
        assert [error.message for error in Draft7Validator(schema).iter_errors(data)] == []


def _changed(change: str) -> dict[str, Any]:
    schema: dict[str, Any] = copy.deepcopy(record_schema())
    position = schema["definitions"]["hold.Position"]
    if change == "a field with a default":
        position["properties"]["colour"] = {"type": "string", "default": ""}
    elif change == "a field without one":
        position["properties"]["colour"] = {"type": "string"}
        position["required"].append("colour")
    elif change == "a field gone":
        del position["properties"]["height"]
    elif change == "another default":
        position["properties"]["height"]["default"] = 1
    elif change == "a class gone":
        del schema["definitions"]["hold.Zone"]
    elif change == "a new class":
        schema["definitions"]["hold.Colour"] = {"type": "object"}
    elif change == "a word gone":
        schema["definitions"]["unit"]["enum"].remove("lb")
    elif change == "a new word":
        schema["definitions"]["unit"]["enum"].append("stone")
    return schema


@pytest.mark.parametrize(
    ("change", "allowed"),
    [
        ("a field with a default", True),
        ("a new class", True),
        ("a new word", True),
        ("a field without one", False),
        ("a field gone", False),
        ("another default", False),
        ("a class gone", False),
        ("a word gone", False),
    ],
)
def test_what_may_change_within_a_format(change: str, allowed: bool) -> None:
    assert (not list(breaks(record_schema(), _changed(change)))) == allowed
