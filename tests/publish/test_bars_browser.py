"""Change bars in Chromium: a tap shows what was, paper shows it without one, no colour is needed."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page

from procgen.publish.card import card
from procgen.publish.rendering import environment
from tests.diff.versions import edited
from tests.publish.sites import templates
from tests.publish.test_bars import AT_ONCE, before, derived, edition
from tests.publish.test_browser_looks import CONTRAST, PRINTED_SIZES

pytestmark = pytest.mark.browser


@pytest.fixture
def page(context: BrowserContext, tmp_path: Path) -> Page:
    """The card of a procedure in which something of every kind differs."""
    shown = edition(before(), derived(edited(*AT_ONCE)))
    (hold,) = shown.site.holds
    procedure = next(one for one in hold.pages if one.name == "sr-aft-two-units")
    file = tmp_path / "card.html"
    file.write_text(card(shown, hold, procedure, environment(templates())), "utf-8")
    opened = context.new_page()
    opened.goto(file.as_uri())
    return opened


def test_a_tap_shows_what_was_its_class_and_where_the_list_is(page: Page) -> None:
    page.click("#all")
    bar = page.locator(".chg:visible", has_text="Removed here: loosened").first
    assert not bar.locator("li").first.is_visible()
    box = bar.locator("summary").bounding_box()
    assert box is not None
    assert box["height"] >= 48
    bar.locator("summary").click()
    said = bar.locator("li").first
    assert said.is_visible()
    for words in ("Loosened since revision 1", "Was: Check that the wind is within the limit", "Removed."):
        assert words in said.inner_text()
    link = said.locator("a").get_attribute("href")
    assert link is not None
    assert link.startswith("../changes.html#difference-SR-AFT/")


def test_bars_are_large_stand_out_and_fit_a_narrow_phone(page: Page) -> None:
    for width in (320, 360):
        page.set_viewport_size({"width": width, "height": 740})
        for view in ("#all", "#show-limits"):
            page.click(view)
            page.evaluate("document.querySelectorAll('.chg').forEach((d) => { d.open = true; })")
            assert page.locator(".chg li:visible").count() > 0
            assert page.evaluate(CONTRAST) == []
            assert page.evaluate("document.documentElement.scrollWidth") <= width


EDGES = """() => Object.fromEntries([...document.querySelectorAll(".chg-at, .chg")]
  .filter((e) => e.getClientRects().length && !e.parentElement.closest(".chg-at"))
  .map((e) => [e.className.match(/chg-(?:loosened|tightened|changed|wording)/)[0],
    getComputedStyle(e).borderLeftStyle + getComputedStyle(e).borderLeftWidth]))"""


@pytest.mark.parametrize("media", ["screen", "print"])
def test_the_classes_are_told_apart_by_shape(page: Page, media: str) -> None:
    page.click("#all")
    page.emulate_media(media="print" if media == "print" else "screen")
    edges = page.evaluate(EDGES)
    assert len(edges) >= 3
    assert len(set(edges.values())) == len(edges)
    assert not any(style.startswith("none") for style in edges.values())


def test_paper_shows_what_was_without_a_tap(page: Page) -> None:
    page.emulate_media(media="print")
    removed = page.locator(".chg:visible", has_text="Removed here: loosened").first
    assert "It said: Check that the wind is within the limit" in removed.inner_text()
    limit = page.locator(".units .chg:visible").first
    assert "1134 kg" in limit.inner_text()
    assert page.locator(".chg li:visible").count() == 0
    assert min(page.evaluate(PRINTED_SIZES)) >= 7
