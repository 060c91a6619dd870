"""The colours of diagrams and cards, computed: text on cards 7:1, every line that says something 3:1."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction

import pytest

from procgen.publish.contrast import channels, contrast
from tests.publish.sites import templates

THEMES = {
    "light": ("diagram.css", r"\.pg-view, \.pg-sheet, \.pg-key \{([^}]*)\}"),
    "manual, dark": ("manual.css", r"\[data-md-color-scheme=\"slate\"\] \.pg-view,[^{]*\{([^}]*)\}"),
    "card, dark": ("card.css", r":root\[data-theme=\"dark\"\] \.pg-view,[^{]*\{([^}]*)\}"),
}


def mixed(over: tuple[int, ...], under: tuple[int, ...], share: Fraction) -> tuple[int, ...]:
    return tuple(round(a * share + b * (1 - share)) for a, b in zip(over, under, strict=True))


def test_the_measure_gives_the_published_values_unrounded() -> None:
    """WCAG 2.2, 1.4.3: on white #767676 is 4.542 and passes AA, #777777 is 4.478 and fails; no rounding."""
    white = channels("#fff")
    assert contrast(channels("#767676"), white) == pytest.approx(4.542, abs=0.0005)
    assert contrast(channels("#777777"), white) == pytest.approx(4.478, abs=0.0005)
    assert contrast(channels("#777777"), white) < 4.5 < contrast(channels("#767676"), white)


def colours(theme: str) -> Mapping[str, tuple[int, ...]]:
    sheet, rule = THEMES[theme]
    found = re.search(rule, templates()[sheet])
    assert found, theme
    return {name: channels(value) for name, value in re.findall(r"--pg-([a-z]+): (#[0-9a-f]{3,6})", found[1])}


@pytest.mark.parametrize("theme", THEMES)
def test_diagrams_stand_out_in_every_theme(theme: str) -> None:
    of = colours(theme)
    paper, ink = of["paper"], of["ink"]
    unit = mixed(of["unit"], paper, Fraction(45, 100))  # .pg-unit has a fill opacity of .45
    for ground in (paper, of["floor"], unit):
        assert contrast(ink, ground) >= 7
    assert contrast(paper, of["up"]) >= 7  # letters on filled symbols
    # 1.4.11, non-text contrast: lines that say something.
    for line in ("line", "accent", "forbid"):
        assert contrast(of[line], paper) >= 3, line
