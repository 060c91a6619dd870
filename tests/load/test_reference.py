"""The data reference says everything the schemas say, and its examples are in our own syntax."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.load.flow import flow
from procgen.load.reference import data_reference
from procgen.source import read_document
from tests.load.test_schemas import PROPERTIES
from tests.support import schemas

PAGE = data_reference(schemas())
ROWS = re.findall(r"^\| `([^`]+)` \| (yes|) \| (.+?) \| (.+) \| `(.+)` \|$", PAGE, re.MULTILINE)


def test_every_property_has_a_row() -> None:
    """One row for each property of the five kinds of file and of the shared forms, limits apart."""
    shown = sorted((key.rsplit(": ", 1)[-1], meaning) for key, _, _, meaning, _ in ROWS)
    said = sorted(
        (at.rsplit("/", 1)[-1], schema["description"].replace("|", "\\|"))
        for at, schema in PROPERTIES
        if not at.startswith("quantities.json") or "/document/" in at
    )
    assert shown == said


def test_a_row_in_full() -> None:
    assert "| `clear: width` | yes | [length](#form-length) | Clear width. | `1.62 m` |" in PAGE.splitlines()
    assert (
        "| `side` | yes | `left` or `right` | The side of the aircraft, looking forward. | `right` |"
        in PAGE.splitlines()
    )


def test_every_example_reads_back_in_our_syntax() -> None:
    for key, _, _, _, example in ROWS:
        document, findings = read_document("example", f"{flow(key)}: {example}")
        assert findings == (), example
        assert document.data is not None


def test_every_link_leads_to_a_heading() -> None:
    headings = re.findall(r"^#+ (.+)$", PAGE, re.MULTILINE)
    anchors = {re.sub(r"[^a-z0-9 -]", "", heading.lower()).replace(" ", "-") for heading in headings}
    links = re.findall(r"\]\(#([^)]+)\)", PAGE)
    assert links
    assert set(links) <= anchors
    assert len(headings) == len(set(headings))


def test_the_units_are_listed() -> None:
    assert "A length with its unit. Units: `m`, `cm`, `mm`, `in`, `ft`." in PAGE


@pytest.mark.parametrize(
    ("data", "text"),
    [
        ("2.05 m", "2.05 m"),
        ("on", '"on"'),
        ("41", '"41"'),
        ("2026-09-01", '"2026-09-01"'),
        ("a: b", '"a: b"'),
        ("", '""'),
        (3, "3"),
        (True, "true"),
        ({"a": ["b", "1"]}, '{a: [b, "1"]}'),
        ([], "[]"),
    ],
)
def test_one_line_of_data(data: object, text: str) -> None:
    assert flow(data) == text


@given(
    st.recursive(
        st.booleans()
        | st.integers(0, 999)
        | st.text(st.characters(min_codepoint=32, max_codepoint=126), max_size=8),
        st.lists,
    )
)
@settings(deadline=None)
def test_one_line_of_data_reads_back(data: object) -> None:
    document, findings = read_document("x", f"a: {flow(data)}")
    assert findings == ()
    assert document.data == {"a": data}
