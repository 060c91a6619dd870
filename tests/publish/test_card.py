"""The phone card: complete in itself, small, and true to the engine's numbers."""

from __future__ import annotations

import gzip
import json
import re
from fractions import Fraction

import pytest

from procgen.publish.card import card
from procgen.publish.limit_rows import accepted, exact_limits, refused
from procgen.publish.rendering import environment
from procgen.publish.words import DEMONSTRATION, PREVAIL, STOP
from procgen.results.page import HoldSite, ProcedurePage
from tests.publish.sites import hold_site, site, sites, templates
from tests.publish.test_manual import hostile

CARDS = [
    (found.station.code, hold.hold.name, page.name)
    for found in sites()
    for hold in found.holds
    for page in hold.pages
]


def parts(code: str, hold: str, name: str) -> tuple[HoldSite, ProcedurePage, str]:
    found = hold_site(code, hold)
    page = next(p for p in found.pages if p.name == name)
    return found, page, card(site(code), found, page, environment(templates()))


@pytest.mark.parametrize(("code", "hold", "name"), CARDS)
def test_a_card_is_complete_and_small(code: str, hold: str, name: str) -> None:
    _, _, html = parts(code, hold, name)
    assert not re.search(r"https?://", html)
    assert not re.search(r"<(?:script|img|iframe)[^>]*\ssrc=|@import|url\((?!#)", html)
    links = re.findall(r'<link [^>]*href="([^"]+)"', html)
    assert links == ["data:,"]
    assert len(gzip.compress(html.encode(), mtime=0)) < 60_000
    assert set(re.findall(r'href="#([^"]+)"', html)) <= set(re.findall(r'id="([^"]+)"', html))


@pytest.mark.parametrize(("code", "hold", "name"), CARDS)
def test_a_card_says_what_it_is_before_anything_else(code: str, hold: str, name: str) -> None:
    _, page, html = parts(code, hold, name)
    head = html[html.index("<header") : html.index('id="block-A"')]
    revision = site(code).station.revision
    for words in (code, hold, page.operation.title(), f"Rev. {revision.number}, {revision.date}", STOP):
        assert words in head
    assert DEMONSTRATION in head
    assert PREVAIL.replace("'", "&#39;") in head
    assert f"in force from {revision.effective}" in head
    assert "Uncontrolled when printed" in html


def test_every_step_is_there_with_its_words_and_its_diagram() -> None:
    found, page, html = parts("K1B", "TR-FWD", "TR-FWD-unloading")
    for block in page.blocks:
        for step in block.steps:
            start = html.index(f'id="step-{step.number}"')
            item = re.split(r'<li class="screen step"|</section>', html[start:])[0]
            assert item.count('<svg class="pg-view') == 1
            for warning in step.warnings:
                assert item.index(warning.title) < item.index('class="do"')
            assert ('class="why"' in item) == bool(step.why)
            assert ('class="ifnot"' in item) == bool(step.if_not)
            assert ('class="done"' in item) == bool(step.done_when)
            assert ('class="then"' in item) == bool(step.then)
            assert 'class="slot"' not in item
    assert html.count('<p class="end">') == len(page.blocks) + len(page.folds)
    on_paper = html[html.index('class="paper strip"') :].count('<svg class="pg-view')
    assert on_paper == 3
    assert len(found.diagrams[page.name]) == html.count('<svg class="pg-view') - on_paper


def test_cycles_stand_folded_beside_their_steps_one_by_one() -> None:
    """A row for each cycle with its own names; in the walk nobody has to put a name in."""
    _, page, html = parts("K1B", "TR-FWD", "TR-FWD-unloading")
    (one,) = page.folds
    assert html.count(f'data-fold="fold-{one.turns[0].letter}"') == len(one.turns) == 6
    folded = html[html.index('<section class="block folded"') :].split("</section>")[0]
    assert folded.count('<li class="step"') == len(one.steps)
    assert 'class="screen' not in folded
    assert 'Go in. Lower <b class="slot">lock</b>.' in folded
    for turn in one.turns:
        assert f'<td data-label="lock">lock {turn.bay}</td>' in folded
        assert f"{turn.first} to {turn.last}" in folded


def test_a_place_kept_under_another_revision_is_another_place() -> None:
    _, _, html = parts("K1B", "SR-AFT", "SR-AFT-loading")
    revision = site("K1B").station.revision
    assert f'data-place="procgen:K1B:SR-AFT-loading:{revision.number}:{revision.date}"' in html


@pytest.mark.parametrize(("code", "hold"), [("K1B", "TR-FWD"), ("K1B", "SR-AFT"), ("N4T", "SR-AFT")])
def test_the_cards_figures_are_the_engines_exactly(code: str, hold: str) -> None:
    found = hold_site(code, hold)
    cells = json.loads(exact_limits(found, "kg"))["cells"]
    seen = 0
    for cell in found.limits.cells:
        figures = cells[cell.position][cell.unit_type]
        if cell.limit is None:
            assert figures["why"] == list(cell.reasons)
        else:
            assert Fraction(int(figures["n"]), int(figures["d"])) == cell.limit.si
        seen += 1
    assert seen == sum(len(row) for row in cells.values())


def test_tables_list_each_cell_once() -> None:
    found = hold_site("K1B", "TR-FWD")
    taken = [(row.position, row.unit_type) for row in accepted(found, "kg")]
    taken += [(p, r.unit_type) for r in refused(found) for p in r.positions]
    assert sorted(taken) == sorted((c.position, c.unit_type) for c in found.limits.cells)


def test_words_from_the_data_cannot_break_a_card() -> None:
    evil = hostile()
    html = card(evil, evil.holds[0], evil.holds[0].pages[0], environment(templates()))
    assert "<img" not in html
    assert html.count("</script>") == 2
    assert html.count("</style>") == 1
