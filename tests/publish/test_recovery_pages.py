"""The page of what to do half way, in Chromium: two taps to the right way, nothing lost on paper.

No script runs but where it says so: a phone may have them off.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from tests.publish.sites import WITH_RECOVERIES

pytestmark = pytest.mark.browser

PAGE = f"{WITH_RECOVERIES}/recovery/SR-AFT-loading.html"
SCREEN = 740
HEIGHT = "document.documentElement.scrollHeight"


@pytest.fixture
def page(browser: Browser, built: Path) -> Iterator[Page]:
    """The page on a phone without scripts."""
    context = browser.new_context(
        viewport={"width": 360, "height": SCREEN}, has_touch=True, java_script_enabled=False
    )
    opened = context.new_page()
    opened.goto((built / PAGE).as_uri())
    yield opened
    context.close()


def _at_hand(found: Locator) -> bool:
    """Whether the top of an element is on the screen, below the bar of the theme."""
    box = found.bounding_box()
    return box is not None and 48 <= box["y"] < SCREEN


def test_two_taps_lead_from_a_step_to_its_way(page: Page) -> None:
    assert page.locator(".pg-way ol li:visible").count() == 0
    page.locator(".pg-pick a", has_text="18").tap()
    trouble = page.locator(".pg-half-way[open]")
    assert trouble.count() == 1
    assert trouble.locator("summary").first.inner_text() == "Step 18"
    assert _at_hand(trouble.locator("summary").first)
    jammed = trouble.locator("p:has-text('The unit is jammed') + ul a").first
    number = (jammed.get_attribute("href") or "").removeprefix("#way-")
    jammed.tap()
    way = page.locator(".pg-way[open]")
    assert way.count() == 1
    assert way.locator("summary").inner_text().startswith(f"W{number} · ")
    assert _at_hand(way.locator("summary"))
    assert "do not push, pull or lever it" in way.inner_text()
    assert "radio channel 2" in way.inner_text()


def test_every_step_and_every_way_can_be_tapped_to(page: Page) -> None:
    targets = page.locator("a[href^='#']").evaluate_all("all => all.map(a => a.getAttribute('href'))")
    assert len({one for one in targets if one.startswith("#step-")}) == 40
    for href in dict.fromkeys(targets):
        assert page.locator(f"[id='{href[1:]}']").count() == 1, href
    led = {one.removeprefix("#way-") for one in targets if one.startswith("#way-")}
    ways = page.locator(".pg-way > div").evaluate_all("all => all.map(e => e.id.slice(4))")
    assert set(ways) == led


def test_a_way_shows_what_to_avoid_beside_its_warnings(page: Page) -> None:
    marks = page.locator(".pg-way .pg-marks").evaluate_all(
        "all => all.map(e => [e.querySelector('a'), e.querySelector('strong')])"
        ".map(([link, avoid]) => [link.getAttribute('href'), avoid.textContent])"
    )
    assert marks
    for href, avoid in marks:
        assert avoid.strip()
        assert avoid.strip() in (page.locator(href).text_content() or "")


def test_folded_the_page_is_some_screens_long_open_it_would_be_a_hundred(page: Page) -> None:
    folded = page.evaluate(HEIGHT)
    page.evaluate("document.querySelectorAll('.pg-fold').forEach(e => { e.open = true; })")
    assert folded < 9 * SCREEN
    assert page.evaluate(HEIGHT) > 10 * folded
    small = page.locator(".pg-half-way a, .pg-half-way summary, .pg-pick a").evaluate_all(
        "all => all.map(e => [e.textContent, e.getBoundingClientRect().height]).filter(e => e[1] < 44)"
    )
    assert small == []


def test_words_inside_a_fold_are_found(page: Page) -> None:
    """A link to the words themselves opens the fold around them, as the browser's own search does."""
    assert page.locator(".pg-way[open]").count() == 0
    fresh = page.context.new_page()
    fresh.goto(f"{page.url}#:~:text=pull%20or%20lever%20it")
    expect(fresh.locator(".pg-way[open]")).to_have_count(1)
    assert "pull or lever it" in fresh.locator(".pg-way[open]").inner_text()


def test_paper_shows_everything(page: Page) -> None:
    page.emulate_media(media="print")
    hidden = page.locator(".pg-way li, .pg-half-way li, .pg-why p, .warn").evaluate_all(
        "all => all.filter(e => !e.checkVisibility({contentVisibilityAuto: true})).length"
    )
    assert hidden == 0
    assert page.locator(".pg-way li").count() > 200
    assert not page.locator(".pg-pick").is_visible()


def test_a_browser_that_opens_no_fold_by_itself_is_helped(browser: Browser, built: Path) -> None:
    opened = browser.new_page()
    opened.goto((built / PAGE).as_uri() + "#way-2")
    shut = "document.querySelectorAll('.pg-fold').forEach(e => { e.open = false; })"
    opened.evaluate(f"{shut}; dispatchEvent(new HashChangeEvent('hashchange'))")
    assert opened.locator("#way-2").is_visible()
    opened.close()
