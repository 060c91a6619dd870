"""What is written as YAML is read back by our strict reader as the same data, without a finding."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.report.step_form import Form
from procgen.report.yaml_text import scalar, yaml_text
from procgen.source import read_document

TEXT = st.text(st.characters(exclude_categories=["Cs"]), max_size=30)
SURPRISES = [
    "no",
    "Off",
    "41",
    "010",
    "12:30",
    "1e3",
    "1_000",
    "~",
    "null",
    "-.inf",
    "",
    " ",
    "y",
    "0x1F",
    "-",
]


@pytest.mark.parametrize(
    "text", [*SURPRISES, "a: b", "a #b", "a, b", "[a]", "{a", "“x”", "tab\t", "é", "it's"]
)
def test_text_that_yaml_may_take_for_something_else_is_quoted(text: str) -> None:
    assert scalar(text).startswith('"')


@pytest.mark.parametrize("text", ["stick", "side-guide", "two units", "AKE", "lock 41", "unit (empty)"])
def test_plain_words_stay_plain(text: str) -> None:
    assert scalar(text) == text


def test_layout_is_one_entry_on_a_line() -> None:
    data: dict[str, Form] = {
        "hold": "ONE",
        "units": {"u1": {"type": "AKH", "bay": "1"}},
        "steps": [
            {"open": "door"},
            {"set": {"power": "on"}},
            {"drive": {"unit": "u1", "through": ["1", "2"]}},
        ],
        "empty": [],
        "crew": 2,
        "demonstration": True,
    }
    assert yaml_text(data) == (
        "hold: ONE\n"
        "units:\n"
        '  u1: {type: AKH, bay: "1"}\n'
        "steps:\n"
        "  - open: door\n"
        '  - set: {power: "on"}\n'
        '  - drive: {unit: u1, through: ["1", "2"]}\n'
        "empty: []\n"
        "crew: 2\n"
        "demonstration: true\n"
    )


FORMS: st.SearchStrategy[Form] = st.recursive(
    st.one_of(TEXT, st.sampled_from(SURPRISES), st.integers(-(10**12), 10**12), st.booleans()),
    lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(TEXT, inner, max_size=4)),
    max_leaves=12,
)


@settings(deadline=None, max_examples=200)
@given(st.dictionaries(st.one_of(TEXT, st.sampled_from(SURPRISES)), FORMS, min_size=1, max_size=5))
def test_reading_back_gives_the_same_data_and_no_finding(data: dict[str, Form]) -> None:
    document, findings = read_document("x.yaml", yaml_text(data))
    assert findings == ()
    assert document.data == data
