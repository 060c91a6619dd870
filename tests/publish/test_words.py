"""Words and numbers as pages show them."""

from __future__ import annotations

from html import unescape

import markdown  # type: ignore[import-untyped]
import pytest
from hypothesis import given
from hypothesis import strategies as st

from procgen.publish.words import both, capital, heading, marked, most, plain
from procgen.units import of


def test_painted_names_become_strong_and_the_rest_is_escaped() -> None:
    assert marked("Raise **lock <41>** & go.") == "Raise <strong>lock &lt;41&gt;</strong> &amp; go."
    assert plain("Raise **lock 41**.") == "Raise lock 41."


def test_a_sentence_starts_with_a_capital_but_a_painted_name_stays_as_it_is() -> None:
    assert capital("lock 41 is down") == "Lock 41 is down"
    assert capital("u33L stands in 34R") == "u33L stands in 34R"
    assert capital("") == ""


@given(st.text(alphabet="ab *_`[](){}<>&#!:+-.\\'\"", min_size=1, max_size=20))
def test_a_heading_shows_its_text_and_nothing_else(text: str) -> None:
    words = " ".join(f"x{text}x".split())
    html = markdown.markdown(f"# {heading(words)}", extensions=["attr_list"])
    assert html.startswith("<h1>")
    assert unescape(html.removeprefix("<h1>").removesuffix("</h1>")) == words


@pytest.mark.parametrize(
    ("kilograms", "unit", "shown"),
    [
        ("1588", "kg", "1\u00a0588\u00a0kg (3\u00a0500\u00a0lb)"),  # 3500.94 lb: cut, not rounded
        ("1587.99", "kg", "1\u00a0587\u00a0kg (3\u00a0500\u00a0lb)"),
        ("1588", "lb", "3\u00a0500\u00a0lb (1\u00a0588\u00a0kg)"),
    ],
)
def test_limits_are_cut_in_both_units(kilograms: str, unit: str, shown: str) -> None:
    assert both(of(kilograms, "kg"), unit) == shown


def test_most_and_capital() -> None:
    assert most(of("999.9", "kg"), "kg") == "999\u00a0kg"
    assert capital("aft hold") == "Aft hold"
    assert capital("") == ""
