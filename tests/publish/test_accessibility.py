"""axe-core on one page of each kind: it has nothing to say, and it would say something if there were."""

from __future__ import annotations

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Page

pytestmark = pytest.mark.browser

PAGES = (
    "index.html",
    "N4T/index.html",
    "N4T/holds/MR-FWD.html",
    "N4T/limits/MR-FWD.html",
    "N4T/loads/MR-FWD.html",
    "N4T/procedures/MR-FWD-loading.html",
    "N4T/recovery/MR-FWD-loading.html",
    "N4T/out-of-service/MR-FWD.html",
    "N4T/revisions.html",
    "N4T/signal-words.html",
)
CHANGED = (
    "index.html",
    "changes.html",
    "holds/MR-FWD-M9.html",
    "procedures/MR-FWD-unloading.html",
    "recovery/SR-AFT-loading.html",
    "out-of-service/SR-AFT.html",
)
"""Pages with bars, of a station in which each kind of page has changed."""
CARD = "N4T/cards/MR-FWD-loading.html"


def _violations(page: Page) -> list[tuple[str, str, str]]:
    """What axe-core finds: impact, rule, and the first element."""
    found = Axe().run(page).response["violations"]
    return [(one["impact"], one["id"], one["nodes"][0]["html"][:120]) for one in found]


OPEN = "document.querySelectorAll('details').forEach(e => { e.open = true; })"
"""What is folded up is looked at too."""


@pytest.mark.parametrize("path", PAGES)
def test_no_kind_of_page_has_a_finding(context: BrowserContext, built: Path, path: str) -> None:
    page = context.new_page()
    page.goto((built / path).as_uri())
    page.evaluate(OPEN)
    assert _violations(page) == []


@pytest.mark.parametrize("path", CHANGED)
def test_no_kind_of_page_with_bars_has_a_finding(
    context: BrowserContext, built_changed: Path, path: str
) -> None:
    page = context.new_page()
    page.goto((built_changed / path).as_uri())
    page.evaluate(OPEN)
    assert page.locator(".chg, tr[id^='difference-']").count() > 0
    assert _violations(page) == []


@pytest.mark.parametrize("folder", ["", "draft/"])
def test_what_changed_since_each_release_has_no_finding(
    context: BrowserContext, built_releases: Path, folder: str
) -> None:
    page = context.new_page()
    for file in sorted((built_releases / folder).glob("changes*.html")):
        page.goto(file.as_uri())
        page.evaluate(OPEN)
        assert page.locator("tr[id^='difference-']").count() > 0
        assert _violations(page) == [], file.name


def test_the_comparison_has_no_finding_light_or_dark(browser: Browser, comparison: str) -> None:
    for colours in ("light", "dark"):
        for width in (360, 1280):
            page = browser.new_page(
                viewport={"width": width, "height": 740},
                color_scheme="dark" if colours == "dark" else "light",
            )
            page.goto(comparison)
            page.evaluate(OPEN)
            assert _violations(page) == [], (colours, width)
            page.close()


def test_a_short_procedure_has_no_finding(context: BrowserContext, built: Path) -> None:
    page = context.new_page()
    page.goto(min((built / "N4T/out-of-service/MR-FWD").glob("*.html")).as_uri())
    assert _violations(page) == []


def test_no_view_of_a_card_has_a_finding_light_or_dark(context: BrowserContext, built: Path) -> None:
    page = context.new_page()
    page.goto((built / CARD).as_uri())
    while page.locator(".screen.now .trouble-link").count() == 0:
        page.click("#next")
    page.click(".step.now .trouble-link a")
    for tap in (".trouble:visible .which-way a >> nth=0", "#show-limits"):
        page.click(tap)
        assert _violations(page) == [], tap
    page.click("#next")
    page.click(".step.now .broken-link a")
    assert _violations(page) == []
    page.click("#show-help")
    page.click("#show-help")
    page.click("#dark")
    assert _violations(page) == []


def test_a_page_that_cannot_be_read_aloud_is_found(context: BrowserContext) -> None:
    page = context.new_page()
    page.set_content("<html><body><img src='data:,'><button></button></body></html>")
    found = {rule for impact, rule, _ in _violations(page) if impact in ("serious", "critical")}
    assert {"image-alt", "button-name", "html-has-lang"} <= found


@pytest.mark.parametrize(
    ("path", "links"),
    [
        ("N4T/recovery/MR-FWD-loading.html", ".pg-half-way a, .pg-half-way summary, .pg-marks a"),
        ("N4T/out-of-service/MR-FWD.html", ".pg-oos-pick a, .pg-oos-told td > a, .pg-oos-told summary"),
        ("N4T/index.html", ".pg-holds li a"),
    ],
)
def test_what_a_thumb_looks_for_on_a_phone_is_large_enough(
    context: BrowserContext, built: Path, path: str, links: str
) -> None:
    page = context.new_page()
    page.goto((built / path).as_uri())
    page.evaluate("document.querySelectorAll('.pg-fold').forEach(e => { e.open = true; })")
    script = (
        "(all) => all.map((e) => [e.textContent, e.getBoundingClientRect().height]).filter((e) => e[1] > 0)"
    )
    sizes = page.locator(links).evaluate_all(script)
    assert len(sizes) > 5
    assert [(words, height) for words, height in sizes if height < 44] == []
