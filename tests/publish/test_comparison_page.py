"""The reviewer's comparison opened in a browser: desk and phone, with and without scripts, filters."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser

from procgen.draw.frame import COMPARED_ROOM
from tests.publish.test_browser_looks import VIEWS_SHOWN

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("scripts", [True, False])
@pytest.mark.parametrize(("width", "height"), [(1280, 800), (360, 740)])
def test_everything_shows_and_nothing_runs_over(
    browser: Browser, comparison: str, width: int, height: int, scripts: bool
) -> None:
    context = browser.new_context(viewport={"width": width, "height": height}, java_script_enabled=scripts)
    page = context.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(comparison)
    assert asked == [comparison]
    assert page.title() == "K1B → K1B"
    wide = page.locator("html").evaluate("e => e.scrollWidth") if scripts else width
    assert wide <= width
    for shown in ("loosened", "tightened", "changed", "wording"):
        assert page.locator(f"section.{shown}").is_visible()
    assert page.locator("table.short").get_by_text("+100 kg (+2.5 %)").is_visible()
    assert page.get_by_text("<b>Kell</b>").first.is_visible()
    assert page.locator("tr.differs").first.is_visible()
    assert page.locator(".pg-was").first.count() == 1
    context.close()


def test_views_are_legible_at_every_width_and_on_paper(browser: Browser, comparison: str) -> None:
    """Lying only where each of two has the room that `draw` counts on, also just past each break."""
    turned = set()
    for width in (320, 751, 753, 1119, 1121, 1600):
        context = browser.new_context(viewport={"width": width, "height": 800})
        page = context.new_page()
        page.goto(comparison)
        for media in ("screen", "print") if width > 720 else ("screen",):  # no paper is so narrow
            page.emulate_media(media="print" if media == "print" else "screen")
            shown = page.evaluate(VIEWS_SHOWN)
            assert len(shown) == 2
            for lying, room, text in shown:
                turned.add((media, lying))
                assert text >= 9, (media, width)
                assert room >= COMPARED_ROOM or not lying, (media, width)
        context.close()
    assert {lying for media, lying in turned if media == "screen"} == {True, False}
    assert ("print", True) not in turned


def test_a_class_can_be_taken_out_and_the_page_says_so(browser: Browser, comparison: str) -> None:
    context = browser.new_context(viewport={"width": 1280, "height": 800}, java_script_enabled=False)
    page = context.new_page()
    page.goto(comparison)
    note = page.get_by_text("Some differences are hidden by your choice above.")
    assert not note.is_visible()
    page.locator("#show-wording").uncheck()
    assert not page.locator("section.wording").is_visible()
    assert page.locator("section.loosened").is_visible()
    assert note.is_visible()
    context.close()


def test_steps_that_are_the_same_are_shown_on_demand(browser: Browser, comparison: str) -> None:
    context = browser.new_context(viewport={"width": 1280, "height": 800}, java_script_enabled=False)
    page = context.new_page()
    page.goto(comparison)
    same, differs = page.locator("tr.same"), page.locator("tr.differs")
    assert not same.first.is_visible()
    # A part with no step that differs does not show its title either.
    shown = page.locator("tbody.part").evaluate_all(
        "all => all.map(e => [e.offsetHeight > 0, !!e.querySelector('.differs')])"
    )
    assert shown
    assert all(visible == differing for visible, differing in shown)
    assert {differing for _, differing in shown} == {True, False}
    page.get_by_label("Show the steps that are the same on both sides, too").check()
    assert same.first.is_visible()
    assert differs.first.is_visible()
    context.close()
