"""What the cards look like in Chromium: contrast and size of text, diagrams at 320 pixels, paper."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext

from procgen.draw.frame import MANUAL_ROOM
from tests.publish.phone import CARD, card

pytestmark = pytest.mark.browser

CONTRAST = """() => {
  const channel = (v) => { v /= 255; return v <= 0.04045 ? v / 12.92 : Math.pow((v + 0.055) / 1.055, 2.4); };
  const light = (c) => 0.2126 * channel(c[0]) + 0.7152 * channel(c[1]) + 0.0722 * channel(c[2]);
  const colour = (text) => text.match(/[\\d.]+/g).map(Number);
  const behind = (e) => {
    for (; e; e = e.parentElement) {
      const c = colour(getComputedStyle(e).backgroundColor);
      if (c.length < 4 || c[3] > 0) return c;
    }
    return [255, 255, 255];
  };
  const poor = [];
  for (const e of document.querySelectorAll("body *")) {
    const own = [...e.childNodes].some((n) => n.nodeType === 3 && n.textContent.trim());
    if (!own || !e.getClientRects().length || e.closest("svg")) continue;
    const style = getComputedStyle(e), a = light(colour(style.color)), b = light(behind(e));
    const ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    if (ratio < 7) poor.push([e.tagName, e.className, e.textContent.slice(0, 30), ratio]);
    if (parseFloat(style.fontSize) < 18) poor.push([e.tagName, e.className, style.fontSize]);
  }
  return poor;
}"""


@pytest.mark.parametrize("dark", [False, True])
def test_text_is_large_and_stands_out(context: BrowserContext, built: Path, dark: bool) -> None:
    # 7:1 is WCAG 2.2, success criterion 1.4.6; the formula is its definition of relative luminance (memory).
    page = card(context, built).page
    if dark:
        page.click("#show-help")
        page.click("#dark")
        page.click("#next")
    for view in ("#all", "#show-limits", "#show-help"):
        page.click(view)
        assert page.evaluate(CONTRAST) == []
    page.evaluate("document.body.insertAdjacentHTML('beforeend', '<p style=\"color: #777\">grey</p>')")
    assert len(page.evaluate(CONTRAST)) == 1  # the measure itself measures


SVG_TEXT = """() => {
  const out = [], wrong = (text) => { if (!out.includes(text)) out.push(text); };
  let compared = 0;
  for (const svg of document.querySelectorAll("svg.pg-view")) {
    if (!svg.getClientRects().length) continue;
    const sheet = svg.viewBox.baseVal, scale = svg.getBoundingClientRect().width / sheet.width;
    const base = document.querySelector(svg.querySelector("use").getAttribute("href"));
    const texts = [...base.querySelectorAll("text"), ...svg.querySelectorAll("text")];
    const signs = [...svg.querySelectorAll("use")].slice(1);
    for (const text of texts) {
      if (parseFloat(getComputedStyle(text).fontSize) * scale < 9) wrong("small: " + text.textContent);
    }
    const boxes = [...texts, ...signs].map((e) => [e.textContent || e.getAttribute("href"), e.getBBox()]);
    for (const [words, box] of boxes) {
      if (box.x < -1 || box.x + box.width > sheet.width + 1) wrong("outside: " + words);
    }
    // The box of a text is as high as its line, which is more than its letters: a little is left off.
    const apart = (a, b) => a.x + a.width <= b.x + 1 || b.x + b.width <= a.x + 1
      || a.y + a.height <= b.y + 2.5 || b.y + b.height <= a.y + 2.5;
    for (let i = 0; i < boxes.length; i++) for (let j = i + 1; j < boxes.length; j++) {
      compared += 1;
      if (!apart(boxes[i][1], boxes[j][1])) wrong("overlap: " + boxes[i][0] + " / " + boxes[j][0]);
    }
  }
  return [compared, out];
}"""


def test_diagrams_are_legible_at_320_pixels(browser: Browser, built: Path) -> None:
    context = browser.new_context(viewport={"width": 320, "height": 740})
    for path in (CARD, "K1B/cards/SR-AFT-unloading.html"):
        page = context.new_page()
        page.goto((built / path).as_uri())
        page.click("#all")
        compared, wrong = page.evaluate(SVG_TEXT)
        assert compared > 10_000
        assert wrong == []
    context.close()


VIEWS_SHOWN = """() => [...document.querySelectorAll(".pg-figure svg.pg-view, .views svg.pg-view")]
  .filter((svg) => svg.getClientRects().length)
  .map((svg) => [svg.classList.contains("pg-lying"), svg.parentElement.clientWidth,
                 10 * svg.getBoundingClientRect().width / svg.viewBox.baseVal.width])"""


def test_the_view_of_parts_is_legible_at_every_width(browser: Browser, built: Path) -> None:
    """Upright on a phone; lying only where a page has the room that `draw` counts on."""
    turned = set()
    for width in (320, 719, 721, 959, 961, 1219, 1221, 1600):
        context = browser.new_context(viewport={"width": width, "height": 800})
        page = context.new_page()
        for path in ("K1B/holds/MX-AFT.html", "K1B/holds/TR-FWD.html"):
            page.goto((built / path).as_uri())
            ((lying, room, text),) = page.evaluate(VIEWS_SHOWN)
            turned.add(lying)
            assert text >= 9, (path, width)
            assert room >= MANUAL_ROOM or not lying, (path, width)
        context.close()
    assert turned == {True, False}


def test_a_card_prints_with_its_marks(context: BrowserContext, built: Path, tmp_path: Path) -> None:
    page = card(context, built).page
    page.emulate_media(media="print")
    for words in ("Uncontrolled when printed", "Demonstration: not for operational use", "Author"):
        assert page.get_by_text(words).first.is_visible()
    assert page.locator(".unfolded:visible").count() == 0
    said = ".block:not(.unfolded) .step"
    assert page.locator(f"{said}:visible").count() == page.locator(said).count() > 0
    assert page.locator("#limits table:visible").count() == 1
    assert page.locator("figure:visible").count() == 3
    assert page.locator("button:visible").count() == 0
    assert page.locator(".address").count() == 0


@pytest.mark.parametrize(
    ("path", "most"),
    [
        ("K1B/cards/SR-AFT-loading.html", 2),
        ("K1B/cards/SR-AFT-unloading.html", 2),
        ("K1B/cards/TR-FWD-unloading.html", 2),
        (CARD, 3),  # 75 steps, six ways of loading eight units: less would be too small to read
    ],
)
def test_a_card_prints_on_few_pages(
    context: BrowserContext, built: Path, tmp_path: Path, path: str, most: int
) -> None:
    """In a type no smaller than 7 points, and with the day on which it was printed."""
    page = card(context, built, path).page
    page.emulate_media(media="print")
    sizes = page.evaluate(PRINTED_SIZES)
    assert len(sizes) > 100
    assert min(sizes) >= 7
    page.evaluate("window.dispatchEvent(new Event('beforeprint'))")
    assert page.locator("#printed").inner_text()[:2] == "20"
    pdf = page.pdf(path=tmp_path / "card.pdf", format="A4", prefer_css_page_size=True)
    assert pdf.startswith(b"%PDF")
    assert 1 <= pdf.count(b"/Type /Page\n") <= most


PRINTED_SIZES = """() => [...document.querySelectorAll("body *")]
  .filter((e) => e.getClientRects().length && !e.closest("svg")
    && [...e.childNodes].some((n) => n.nodeType === 3 && n.textContent.trim()))
  .map((e) => parseFloat(getComputedStyle(e).fontSize) * 72 / 96)"""
