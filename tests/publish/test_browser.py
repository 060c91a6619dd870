"""The built pages in Chromium, at the size of a phone and of a desk."""

from __future__ import annotations

from math import floor
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from procgen.results.limits import LimitCell
from procgen.units import of
from tests.publish.phone import CARD, card, opened, shown
from tests.publish.sites import hold_site, site

pytestmark = pytest.mark.browser

PAGES = (
    "index.html",
    "K1B/index.html",
    "K1B/holds/TR-FWD.html",
    "K1B/limits/TR-FWD.html",
    "N4T/limits/SR-AFT.html",
    "K1B/loads/MX-AFT.html",
    "K1B/procedures/TR-FWD-loading.html",
    "N4T/recovery/SR-AFT-loading.html",
    "K1B/revisions.html",
    "K1B/signal-words.html",
)


@pytest.mark.parametrize("path", [*PAGES, CARD, "N4T/cards/SR-AFT-unloading.html"])
def test_no_page_scrolls_sideways_complains_or_asks_the_world(
    context: BrowserContext, built: Path, path: str
) -> None:
    watched = opened(context, (built / path).as_uri())
    page = watched.page
    views = ("#all", "#show-limits", "#show-help") if "/cards/" in path else ("",)
    for view in views:
        if view:
            page.click(view)
        for width in (320, 360, 1280):
            page.set_viewport_size({"width": width, "height": 740})
            page.evaluate("document.querySelectorAll('article details').forEach((d) => { d.open = true; })")
            assert page.evaluate("document.documentElement.scrollWidth") <= width, (view, width)
    assert watched.trouble == []


def test_the_first_screen_says_which_card_this_is(context: BrowserContext, built: Path) -> None:
    page = card(context, built).page
    revision = site("K1B").station.revision
    which = f"Rev. {revision.number}, {revision.date}"
    for words in ("K1B", "TR-FWD", "Loading", which, "let go, stand clear"):
        assert page.get_by_text(words).first.is_visible()
    for words in ("Demonstration: not for operational use", "approved weight and balance"):
        box = page.get_by_text(words).first.bounding_box()
        assert box is not None
        bar = page.locator(".bar").bounding_box()
        assert bar is not None
        assert box["y"] + box["height"] <= bar["y"], words


def test_steps_are_walked_by_button_key_and_swipe(context: BrowserContext, built: Path) -> None:
    watched = card(context, built)
    page = watched.page
    assert shown(page) == "start"
    page.click("#next")
    assert shown(page) == "A"
    page.keyboard.press("ArrowRight")
    assert shown(page) == "step-1"
    total = sum(len(block.steps) for block in hold_site("K1B", "TR-FWD").pages[0].blocks)
    assert page.inner_text("#where") == f"A, 1 of {total}"
    swipe = """([from, to]) => {
      const send = (kind, x) => {
        const touch = new Touch({ identifier: 1, target: document.body, clientX: x, clientY: 300 });
        const touches = kind === "touchend" ? [] : [touch];
        const event = new TouchEvent(kind, { bubbles: true, touches, changedTouches: [touch] });
        document.body.dispatchEvent(event);
      };
      send("touchstart", from);
      send("touchend", to);
    }"""
    page.evaluate(swipe, [300, 60])
    assert shown(page) == "step-2"
    page.evaluate(swipe, [200, 180])  # too short to be meant
    assert shown(page) == "step-2"
    page.evaluate(swipe, [60, 300])
    assert shown(page) == "step-1"
    page.click("#back")
    assert shown(page) == "A"
    page.click("#next")
    page.click("#show-limits")
    page.keyboard.press("ArrowRight")
    assert shown(page) == "step-1"
    assert watched.trouble == []


WALK = """() => {
  const seen = [], tops = [];
  for (let now; (now = document.querySelector(".screen.now")).id !== "finished";) {
    seen.push(now.id || now.dataset.block);
    window.scrollTo(0, 300);
    tops.push(document.querySelector(".top .stop").getBoundingClientRect().top);
    document.getElementById("next").click();
  }
  return [seen, tops];
}"""


def test_every_step_comes_in_order_and_the_stop_line_stays(context: BrowserContext, built: Path) -> None:
    page = card(context, built, "K1B/cards/SR-AFT-loading.html").page
    seen, tops = page.evaluate(WALK)
    numbers = [int(name.removeprefix("step-")) for name in seen if name.startswith("step-")]
    steps = [s.number for b in hold_site("K1B", "SR-AFT").pages[0].blocks for s in b.steps]
    assert numbers == steps
    assert all(0 <= top < 200 for top in tops)
    assert shown(page) == "finished"
    page.click("#next")
    assert shown(page) == "start"


def test_the_list_is_folded_and_the_walk_is_not(context: BrowserContext, built: Path) -> None:
    page = card(context, built, "K1B/cards/TR-FWD-unloading.html").page
    (one,) = next(p for p in hold_site("K1B", "TR-FWD").pages if p.name == "TR-FWD-unloading").folds
    while shown(page) != f"step-{one.turns[2].first}":
        page.click("#next")
    assert f"Lower lock {one.turns[2].bay}." in page.locator(".step.now .do").inner_text()
    assert page.locator(".folded:visible").count() == 0
    page.click("#all")
    assert page.locator(".unfolded:visible").count() == 0
    assert page.locator(".folded .turns tbody tr:visible").count() == len(one.turns)
    head = page.locator(f"#fold-{one.turns[0].letter}").bounding_box()
    assert head is not None
    assert 0 < head["y"] < 740  # the list opens where the walk stood
    page.locator(".folded .marks a").first.click()
    assert page.locator(".folded .marks .warn:visible").count() == 1
    page.click("#next")
    assert shown(page) == f"step-{one.turns[2].first}"


ASK_FOR_HELP = """() => {
  const tops = [], tap = (id) => document.getElementById(id).click();
  while (document.querySelector(".screen.now").id !== "finished") {
    tap("show-help");
    tops.push(document.getElementById("broken").getBoundingClientRect().top);
    tap("next");
    tap("next");
  }
  return tops;
}"""


def test_what_to_do_when_something_fails_is_one_tap_from_every_step(
    context: BrowserContext, built: Path
) -> None:
    page = card(context, built, "K1B/cards/SR-AFT-loading.html").page
    tops = page.evaluate(ASK_FOR_HELP)
    steps = [s for b in hold_site("K1B", "SR-AFT").pages[0].blocks for s in b.steps]
    assert len(tops) > len(steps)
    assert all(0 < top < 740 for top in tops)


def test_the_next_button_fits_a_glove(context: BrowserContext, built: Path) -> None:
    page = card(context, built).page
    box = page.locator("#next").bounding_box()
    assert box is not None
    assert box["height"] >= 64
    assert box["width"] >= 360 - 2 * 12
    page.click("#next")
    for button in page.locator(".bar .row button").all():
        small = button.bounding_box()
        assert small is not None
        assert small["height"] >= 48
        assert small["y"] + small["height"] + 8 <= box["y"]


def test_a_phone_held_sideways_keeps_the_stop_line_and_the_button(
    context: BrowserContext, built: Path
) -> None:
    page = card(context, built).page
    page.set_viewport_size({"width": 740, "height": 360})
    while page.locator(".now .pg-way").count() == 0:
        page.locator("#next").dispatch_event("click")
    page.evaluate("window.scrollTo(0, 200)")
    stop, button = page.locator(".top .stop").bounding_box(), page.locator("#next").bounding_box()
    assert stop is not None
    assert button is not None
    assert 0 <= stop["y"] < 30
    assert button["height"] >= 64
    assert button["y"] + button["height"] <= 360
    assert button["y"] - (stop["y"] + stop["height"]) > 180


def test_an_interrupted_block_starts_again_from_its_head(context: BrowserContext, built: Path) -> None:
    block = hold_site("K1B", "TR-FWD").pages[0].blocks[1]
    first, third = block.steps[0].number, block.steps[2].number
    watched = card(context, built)
    page = watched.page
    while shown(page) != f"step-{third}":
        page.click("#next")
    page.reload()
    assert shown(page) == block.letter
    assert f"You stopped at step {third}" in page.inner_text("#notice")
    page.click("#next")
    assert page.locator("#notice").count() == 0
    assert shown(page) == f"step-{first}"
    page.click("#show-help")
    page.click("#again")
    page.reload()
    assert shown(page) == "start"
    assert watched.trouble == []


def test_a_phone_that_keeps_nothing_still_walks(browser: Browser, built: Path) -> None:
    context = browser.new_context(viewport={"width": 360, "height": 740})
    context.add_init_script(
        "Object.defineProperty(window, 'localStorage', { get() { throw new Error('not allowed'); } });"
    )
    watched = card(context, built)
    watched.page.click("#next")
    watched.page.click("#next")
    assert shown(watched.page) == "step-1"
    watched.page.click("#show-help")
    watched.page.click("#dark")
    assert watched.trouble == []
    context.close()


def test_without_scripts_every_step_is_listed(browser: Browser, built: Path) -> None:
    context = browser.new_context(viewport={"width": 360, "height": 740}, java_script_enabled=False)
    page = context.new_page()
    page.goto((built / CARD).as_uri())
    steps = [s for b in hold_site("K1B", "TR-FWD").pages[0].blocks for s in b.steps]
    assert page.locator(".step:visible").count() == len(steps)
    assert page.locator(".bar:visible").count() == 0
    assert page.locator("table.limits:visible").count() == 1
    assert page.locator("#ask:visible").count() == 0
    assert page.locator("#help:visible").count() == 1
    context.close()


ASK = """(questions) => questions.map(([position, type, mass, unit]) => {
  for (const [id, value] of [["ask-position", position], ["ask-type", type], ["ask-unit", unit]]) {
    document.getElementById(id).value = value;
  }
  const field = document.getElementById("ask-mass");
  field.value = mass;
  field.dispatchEvent(new Event("input"));
  const answer = document.getElementById("answer");
  return [answer.dataset.answer, answer.textContent];
})"""


def ask(page: Page, position: str, unit_type: str, mass: str) -> tuple[str, str]:
    """The form's answer about a mass in kg."""
    ((answer, words),) = page.evaluate(ASK, [[position, unit_type, mass, "kg"]])
    return answer, words


def masses(cell: LimitCell) -> list[tuple[str, str]]:
    """Masses about a cell's limit: to four decimals just under and over it, whole ones, far ones."""
    if cell.limit is None:
        return [("1", "kg"), ("1", "lb")]
    found = []
    for unit in ("kg", "lb"):
        exact = cell.limit.to(unit).value
        fine, whole = floor(exact * 10_000), floor(exact)
        for ten_thousandths in (fine, fine + 1, whole * 10_000, (whole + 1) * 10_000, 10_000, fine * 2):
            found.append((f"{ten_thousandths // 10_000}.{ten_thousandths % 10_000:04d}", unit))
        found.append((str(whole), unit))
    return found


@pytest.mark.parametrize(
    ("code", "hold", "name"), [("K1B", "TR-FWD", "TR-FWD-loading"), ("N4T", "SR-AFT", "SR-AFT-unloading")]
)
def test_the_limits_form_agrees_with_the_engine(
    context: BrowserContext, built: Path, code: str, hold: str, name: str
) -> None:
    page = card(context, built, f"{code}/cards/{name}.html").page
    cells = hold_site(code, hold).limits.cells
    questions = [(cell, typed, unit) for cell in cells for typed, unit in masses(cell)]
    answers = page.evaluate(ASK, [[c.position, c.unit_type, typed, unit] for c, typed, unit in questions])
    for (cell, typed, unit), (answer, words) in zip(questions, answers, strict=True):
        allowed = cell.limit is not None and of(typed, unit) <= cell.limit
        assert answer == ("yes" if allowed else "no"), (cell.position, typed, unit, words)
        assert (cell.candidates[0].title if cell.limit is not None else cell.reasons[0]) in words
    assert {answer for answer, _ in answers} == {"yes", "no"}
    assert len(answers) >= 8 * 14


def test_a_mass_that_is_none_is_never_answered_yes(context: BrowserContext, built: Path) -> None:
    page = card(context, built).page
    for typed in ("1,134", "abc", "0", "0.000", "-5", "1e3", "", "12345678901", "1.23456"):
        answer, _ = ask(page, "11L", "AKE", typed)
        assert answer == "", typed


def test_a_yes_warns_of_what_the_positions_carry_together(context: BrowserContext, built: Path) -> None:
    page = card(context, built).page
    answer, words = ask(page, "14L", "AKE", "1400")
    assert answer == "yes"
    assert "With the other units in 14L, 14R: at most 2\u00a0600\u00a0kg" in words


def test_a_mark_shows_its_warning_where_it_stands(context: BrowserContext, built: Path) -> None:
    page = card(context, built).page
    while page.locator(".step.now .marks").count() == 0:
        page.click("#next")
    mark = page.locator(".step.now .marks a").first
    title = mark.inner_text().strip()
    mark.click()
    assert title in page.locator(".step.now .marks .warn").first.inner_text()
    mark.click()
    assert page.locator(".step.now .marks .warn").count() == 0
