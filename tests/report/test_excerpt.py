"""The caret stands under the text that is meant, whatever characters the line holds."""

import unicodedata

from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.diagnostics import Span
from procgen.report.excerpt import excerpt, source_line


def test_caret_under_a_plain_span() -> None:
    drawn = excerpt("hold: A\nmass: 12 kq\n", Span(2, 7, 2, 12))
    assert drawn.line == "mass: 12 kq"
    assert drawn.carets == "      ^^^^^"


def test_tab_before_the_span_takes_four_columns() -> None:
    drawn = excerpt("\tkey: x", Span(1, 7, 1, 8))
    assert drawn.line == "    key: x"
    assert drawn.carets == " " * 9 + "^"


def test_tab_inside_the_span_is_underlined_whole() -> None:
    assert excerpt("a\tb", Span(1, 1, 1, 4)).carets == "^" * 6


def test_wide_characters_take_two_columns() -> None:
    drawn = excerpt("名: 値x", Span(1, 4, 1, 5))
    assert drawn.carets == " " * 4 + "^^"


def test_combining_characters_take_none() -> None:
    text = unicodedata.normalize("NFD", "é: x")
    assert excerpt(text, Span(1, 5, 1, 6)).carets == "   ^"


def test_span_over_several_lines_is_marked_to_the_end_of_its_first() -> None:
    assert excerpt("a: [1,  \n  2]\n", Span(1, 4, 2, 5)).carets == "   ^^^"


def test_empty_span_still_gets_one_caret() -> None:
    assert excerpt("key:", Span(1, 5, 1, 5)).carets == "    ^"


def test_span_past_the_end_of_the_text() -> None:
    drawn = excerpt("a: 1\n", Span(2, 1, 2, 2))
    assert (drawn.line, drawn.carets) == ("", "^")


def test_long_line_is_cut_around_the_span() -> None:
    drawn = excerpt("x" * 300 + "WRONG" + "y" * 300, Span(1, 301, 1, 306))
    start = drawn.carets.index("^")
    assert drawn.line[start : start + 5] == "WRONG"
    assert drawn.carets[start:] == "^" * 5
    assert drawn.line.startswith("…")
    assert drawn.line.endswith("…")
    assert len(drawn.line) == 102


def test_span_wider_than_the_window_is_underlined_to_its_edge() -> None:
    drawn = excerpt("k: " + "x" * 300, Span(1, 4, 1, 304))
    assert drawn.line == "k: " + "x" * 97 + "…"
    assert drawn.carets == "   " + "^" * 97


def test_lines_are_counted_as_yaml_counts_them() -> None:
    """YAML 1.1 (5.4, as PyYAML reads it) breaks lines at CR LF, LF, CR, NEL, LS and PS."""
    assert [source_line("a\r\nb\nc\rd\x85e\u2028f\u2029g", n) for n in range(9)] == ["", *"abcdefg", ""]


@settings(deadline=None)
@given(
    st.text(
        st.characters(exclude_categories=["Cs"], exclude_characters="\r\n\x85\u2028\u2029"), max_size=250
    ),
    st.integers(1, 260),
    st.integers(0, 260),
)
def test_never_raises_and_always_marks_something_on_one_line(line: str, column: int, length: int) -> None:
    drawn = excerpt(line, Span(1, column, 1, column + length))
    assert drawn.carets.strip(" ").strip("^") == ""
    assert drawn.carets.endswith("^")
    assert not {"\n", "\r", "\t", "\x1b", "\x00"} & set(drawn.line)
