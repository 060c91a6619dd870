"""Our YAML subset: what it reads, what it refuses, and where everything stands."""

from __future__ import annotations

import pytest

from procgen.diagnostics import Place, Span
from procgen.source import read_document
from procgen.source.document import Data


def _rules(text: str) -> list[str]:
    return [finding.rule for finding in read_document("x.yaml", text)[1]]


def _read(text: str) -> Data:
    document, findings = read_document("x.yaml", text)
    assert findings == ()
    return document.data


@pytest.mark.parametrize(
    ("text", "data"),
    [
        ("a: b", {"a": "b"}),
        ("a: [1, 2]", {"a": [1, 2]}),
        ("- a\n- b: c\n", ["a", {"b": "c"}]),
        ("a: true\nb: false\n", {"a": True, "b": False}),
        ("a: -3\nb: 0\n", {"a": -3, "b": 0}),
        ("a: 1.50", {"a": "1.50"}),
        ("a: 2.05 m", {"a": "2.05 m"}),
        ("a: \"on\"\nb: '010'\n", {"a": "on", "b": "010"}),
        ('"41": x', {"41": "x"}),
        ("a:\n", {"a": None}),
        ("a: ''", {"a": ""}),
        ("a: |\n  one\n  two\n", {"a": "one\ntwo\n"}),
        ("a: >\n  one\n  two\n", {"a": "one two\n"}),
        ('{"a": {"b": [1, "2", true]}}', {"a": {"b": [1, "2", True]}}),
        ('a: "\\ud83d\\ude00"', {"a": "\N{GRINNING FACE}"}),
        ("a: 1 588 kg # a remark", {"a": "1 588 kg"}),
    ],
)
def test_reads(text: str, data: Data) -> None:
    assert _read(text) == data


@pytest.mark.parametrize(
    ("plain", "core_schema"),
    [
        ("NO", "text in 1.2, false in 1.1"),
        ("no", "text in 1.2, false in 1.1"),
        ("yes", "text in 1.2, true in 1.1"),
        ("on", "text in 1.2, true in 1.1"),
        ("Off", "text in 1.2, false in 1.1"),
        ("010", "10 in 1.2, 8 in 1.1"),
        ("12:30", "text in 1.2, 750 in 1.1"),
        ("1e3", "1000 in 1.2, text in PyYAML's 1.1"),
        ("1_000", "text in 1.2, 1000 in 1.1"),
        ("0x1F", "31 in both, but not what a writer means"),
        ("0o17", "15 in 1.2, text in 1.1"),
        (".inf", "no number in both"),
        ("True", "true in both, but we write it one way"),
        ("null", "nothing in both, but we write nothing"),
        ("~", "nothing in both, but we write nothing"),
    ],
)
def test_plain_values_that_readers_take_differently(plain: str, core_schema: str) -> None:
    """YAML 1.2.2, 10.3.2 (the core schema), against the types of YAML 1.1: NO, 010, 12:30 and 1e3."""
    document, findings = read_document("x.yaml", f"a: {plain}")
    assert [finding.rule for finding in findings] == ["ambiguous-plain-value"], core_schema
    assert document.data == {"a": plain}, "the text is kept"
    assert f'"{plain}"' in findings[0].suggestion
    assert _read(f'a: "{plain}"') == {"a": plain}


@pytest.mark.parametrize(
    "plain", ["2026-09-01", "1.5", "+5", "y", "n", "1 000", "northern", "none", "a:b", "0"]
)
def test_plain_values_that_are_what_they_look_like(plain: str) -> None:
    assert _rules(f"a: {plain}") == []


@pytest.mark.parametrize(
    ("text", "at"),
    [
        ("a: &x 1\n", Span(1, 4, 1, 8)),
        ("a: 1\nb: *x\n", Span(2, 4, 2, 6)),
        ("a: !!int 1\n", Span(1, 4, 1, 11)),
        ("a: !mine {}\n", Span(1, 4, 1, 11)),
        ("a: 1\n---\nb: 2\n", Span(2, 1, 2, 4)),
        ("a: {<<: {b: 1}}\n", Span(1, 5, 1, 7)),
    ],
)
def test_features_that_are_refused(text: str, at: Span) -> None:
    _, findings = read_document("x.yaml", text)
    assert [finding.rule for finding in findings] == ["yaml-feature"]
    assert findings[0].place.span == at


@pytest.mark.parametrize("text", ["", "\n\n", "# only a remark\n", "---\n", "--- # x\n...\n"])
def test_a_file_that_holds_nothing(text: str) -> None:
    document, findings = read_document("x.yaml", text)
    assert document.data is None
    assert [finding.rule for finding in findings] == ["empty-file"]


@pytest.mark.parametrize(
    ("text", "line", "column", "says"),
    [
        ("a: [1, 2", 1, 4, "“[” is not closed"),
        ("x: [1 m, 2 m\ny: [1 m, 2 m]\n", 1, 4, "“[” is not closed"),
        ("a: {b: 1\nc: 2\n", 1, 4, "“{” is not closed"),
        ("a: b: c\n", 1, 5, "a colon stands where none can"),
        ("a: 1\n b: 2\n", 2, 3, "a colon stands where none can"),
        ("a: 'x\nb: 1\n", 1, 4, "quote is not closed"),
        ("a: 'it's'\n", 1, 8, "behind the closing quote"),
        ("a:\n\t- 1\n", 2, 1, "a tab"),
        ("a: - b\n", 1, 4, "in the line of its key"),
        ("a: 1\nb 2\nc: 3\n", 2, 1, "no colon"),
        ("a:\n  - b\n - c\n", 3, 2, "does not fit the indents"),
        ("a: @x\n", 1, 4, "cannot begin with “@”"),
        ("a: ]\n", 1, 4, "closes what was not opened"),
        ("a:\n  - {b: [\n", 3, 1, "a bracket is opened and not closed"),
        ('a: "\\q"\n', 1, 6, "“\\q” means nothing"),
        ("a: >x\n  y\n", 1, 5, "this is not YAML"),
        ("a: \x00\n", 1, 4, "a character that text cannot hold"),
        ("ok: 1\nb: \x07\n", 2, 4, "a character that text cannot hold"),
        ("[" * 60 + "]" * 60, 1, 51, "too deep"),
    ],
)
def test_text_that_is_not_yaml(text: str, line: int, column: int, says: str) -> None:
    document, findings = read_document("x.yaml", text)
    assert document.data is None
    (finding,) = findings
    assert finding.rule == "yaml-syntax"
    assert says in finding.message
    assert finding.suggestion
    span = finding.place.span
    assert span is not None
    assert (span.line, span.column) == (line, column)


def test_where_a_broken_thing_begins_and_where_it_goes_wrong() -> None:
    (finding,) = read_document("x.yaml", "x: [1 m, 2 m\ny: [1 m, 2 m]\n")[1]
    (related,) = finding.related
    assert related.message == "here it goes wrong"
    assert related.place.span == Span(2, 2, 2, 3)


def test_deep_nesting_is_refused_without_running_out_of_stack() -> None:
    assert _rules("[" * 100_000) == ["yaml-syntax"]
    assert _rules("a: " + "{a: " * 5000 + "}" * 5000) == ["yaml-syntax"]


def test_a_number_too_long_to_be_meant_stays_text() -> None:
    digits = "9" * 5000
    assert _read(f"a: {digits}") == {"a": digits}


def test_duplicate_keys() -> None:
    text = "a:\n  b: {c: 1}\n  d: 2\n  b: {c: 3}\n"
    document, findings = read_document("x.yaml", text)
    (finding,) = findings
    assert finding.rule == "duplicate-key"
    assert finding.place.span == Span(4, 3, 4, 4)
    assert document.span(finding.related[0].place) == Span(2, 3, 2, 4)
    assert document.data == {"a": {"b": {"c": 1}, "d": 2}}, "the first one counts"
    assert document.span(document.place("a", "b", "c").key()) == Span(2, 7, 2, 8)


def test_what_is_wrong_inside_a_duplicate_is_found_too() -> None:
    assert _rules("a: 1\na: {b: no, c: 1, c: 2}\n") == [
        "duplicate-key",
        "ambiguous-plain-value",
        "duplicate-key",
    ]


@pytest.mark.parametrize(
    ("text", "at"),
    [
        ("41: x", Span(1, 1, 1, 3)),
        ("true: x", Span(1, 1, 1, 5)),
        ("? [a]\n: x", Span(1, 3, 1, 6)),
        ("?\n: x", Span(1, 2, 1, 2)),
    ],
)
def test_keys_that_are_not_text(text: str, at: Span) -> None:
    _, findings = read_document("x.yaml", text)
    assert [finding.rule for finding in findings] == ["key-not-text"]
    assert findings[0].place.span == at


def test_a_key_that_readers_take_differently_is_found_at_the_key() -> None:
    document, findings = read_document("x.yaml", "power:\n  on: x\n")
    assert [(finding.rule, finding.place.span) for finding in findings] == [
        ("ambiguous-plain-value", Span(2, 3, 2, 5))
    ]
    assert document.data == {"power": {"on": "x"}}


def test_everything_is_found_in_the_order_of_the_text() -> None:
    assert _rules("a: no\n7: 010\na: 1\n") == [
        "ambiguous-plain-value",
        "key-not-text",
        "ambiguous-plain-value",
        "duplicate-key",
    ]


TEXT = """\
bays:
  "41": {x: [10.90 m, 12.46 m]}   # remark
steps:
  - open: door
  - note: |
      two
      lines
"""


@pytest.mark.parametrize(
    ("place", "span"),
    [
        (Place("x.yaml", ("bays", "41", "x", 1)), Span(2, 23, 2, 30)),
        (Place("x.yaml", ("bays", "41", "x")), Span(2, 13, 2, 31)),
        (Place("x.yaml", ("bays", "41", "x"), on_key=True), Span(2, 10, 2, 11)),
        (Place("x.yaml", ("bays", "41"), on_key=True), Span(2, 3, 2, 7)),
        (Place("x.yaml", ("bays", "41")), Span(2, 9, 2, 32)),
        (Place("x.yaml", ("steps", 0)), Span(4, 5, 5, 3)),
        (Place("x.yaml", ("steps", 0, "open")), Span(4, 11, 4, 15)),
        (Place("x.yaml", ("steps", 1, "note")), Span(5, 11, 8, 1)),
        (Place("x.yaml", ("bays", "41", "y", 3)), Span(2, 9, 2, 32)),
        (Place("x.yaml", ("nothing",)), Span(1, 1, 8, 1)),
        (Place("x.yaml", span=Span(3, 1, 3, 2)), Span(3, 1, 3, 2)),
    ],
)
def test_spans_are_exact(place: Place, span: Span) -> None:
    """Lines and columns from 1, the end column exclusive; what does not exist is where it would stand."""
    document, _ = read_document("x.yaml", TEXT)
    assert document.span(place) == span
