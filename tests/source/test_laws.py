"""Laws of reading."""

from __future__ import annotations

import json

import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.source import read_document

PLAIN = st.characters(
    exclude_categories=["Cs", "Cc"], exclude_characters="\ufeff\u2028\u2029\x85\ufffe\uffff"
)
TEXTS = st.text(PLAIN, max_size=12)
DATA = st.recursive(
    st.booleans() | st.integers(-(10**15), 10**15) | TEXTS,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(TEXTS, inner, max_size=4),
    max_leaves=15,
)


@given(st.text())
@settings(deadline=None, max_examples=300)
def test_reading_never_raises(text: str) -> None:
    document, findings = read_document("x.yaml", text)
    assert document.data is not None or findings
    for finding in findings:
        span = document.span(finding.place)
        assert 1 <= span.line <= len(text.splitlines()) + 1
        assert span.column >= 1


@given(DATA)
@settings(deadline=None, max_examples=150)
def test_json_reads_as_itself(data: object) -> None:
    """JSON is within the subset (YAML 1.2.2, 1.3: every JSON file is also a valid YAML file)."""
    document, findings = read_document("x.json", json.dumps(data))
    assert findings == ()
    assert document.data == data


@given(DATA)
@settings(deadline=None, max_examples=100)
def test_what_a_yaml_writer_puts_in_quotes_reads_as_itself(data: object) -> None:
    document, findings = read_document("x.yaml", yaml.safe_dump(data, default_style='"', allow_unicode=True))
    assert [finding for finding in findings if finding.rule != "yaml-feature"] == []
    if not findings:
        assert document.data == data


@given(DATA)
@settings(deadline=None, max_examples=100)
def test_every_value_has_a_span_that_holds_it(data: object) -> None:
    text = json.dumps(data, indent=1)
    document, _ = read_document("x.json", text)
    lines = text.splitlines()
    for route, span in document.value_spans.items():
        value = data
        for step in route:
            value = value[step]  # type: ignore[index]
        if span.line == span.end_line:
            assert json.loads(lines[span.line - 1][span.column - 1 : span.end_column - 1]) == value
