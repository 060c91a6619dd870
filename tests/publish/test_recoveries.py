"""What to do when something goes wrong half way: on the card at one tap, on its page in full."""

from __future__ import annotations

import gzip
import re
from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from procgen.model.words import Operation
from procgen.publish import station_tree
from procgen.publish.card import card
from procgen.publish.recoveries import ShownGuide, guide_for
from procgen.publish.rendering import environment
from procgen.results.page import HoldSite, ProcedurePage
from procgen.results.recovery import Outcome, where
from tests.pipeline.recovered import guide_of
from tests.publish.phone import card as opened_card
from tests.publish.sites import WITH_RECOVERIES, hold_site, site, templates

HERE = [(hold.hold.name, page.name) for hold in site(WITH_RECOVERIES).holds for page in hold.pages]
CARD = f"{WITH_RECOVERIES}/cards/SR-AFT-loading.html"


def _parts(hold: str, name: str) -> tuple[HoldSite, ProcedurePage, ShownGuide]:
    found = hold_site(WITH_RECOVERIES, hold)
    page = next(page for page in found.pages if page.name == name)
    guide = guide_for(found, page)
    assert guide is not None
    return found, page, guide


def _html(hold: str, name: str) -> str:
    found, page, _ = _parts(hold, name)
    return card(site(WITH_RECOVERIES), found, page, environment(templates()))


@pytest.mark.parametrize(("hold", "name"), HERE)
def test_every_step_from_the_open_door_to_the_closed_one_leads_to_what_to_do(hold: str, name: str) -> None:
    _, page, guide = _parts(hold, name)
    html = _html(hold, name)
    numbers = [step.number for block in page.blocks for step in block.steps]
    led = sorted(guide.by_step)
    assert led == list(range(led[0], led[-1] + 1))
    assert len(led) > len(numbers) / 2
    for number in led:
        item = re.split(r'id="step-\d+"', html[html.index(f'id="step-{number}"') :])[1]
        assert f'href="#trouble-{guide.by_step[number]}"' in item
    for trouble in guide.troubles:
        assert trouble.rows
        assert trouble.stop == () or trouble.stop[0].text.startswith("Call “stop”")
        assert all(0 < row.way <= len(guide.ways) for row in trouble.rows)


@pytest.mark.parametrize(("hold", "name"), HERE)
def test_the_card_and_the_page_have_every_way_with_all_its_steps_and_warnings(hold: str, name: str) -> None:
    _, _, guide = _parts(hold, name)
    tree = station_tree(site(WITH_RECOVERIES), templates())
    for text in (_html(hold, name), tree[f"docs/recovery/{name}.md"]):
        assert len(re.findall(r'id="way-\d+"', text)) == len([w for w in guide.ways if w.stop or w.then])
        for way in guide.ways:
            if not way.stop:
                continue
            shown = re.split(r'id="way-\d+"', text[text.index(f'id="way-{way.number}"') :])[1]
            shown = shown.split("</section>")[0]
            assert shown.count("<li>") == len(way.stop) + len(way.then)
            assert ("Call:" in shown) == way.calls
        for warning in guide.warnings:
            assert text.count(f'id="half-way-{warning.name}"') == 1
            assert warning.avoid.split(".")[0] in text


def test_the_page_of_a_hold_leads_to_what_to_do_half_way() -> None:
    tree = station_tree(site(WITH_RECOVERIES), templates())
    for hold, name in HERE:
        assert f'href="../recovery/{name}.html"' in tree[f"docs/holds/{hold}.md"]


def test_whoever_is_called_stands_under_every_way_that_calls() -> None:
    _, _, guide = _parts("SR-AFT", "SR-AFT-loading")
    calling = [way for way in guide.ways if way.calls]
    assert calling
    contacts = site(WITH_RECOVERIES).station.contacts
    html = _html("SR-AFT", "SR-AFT-loading")
    for way in calling:
        shown = html[html.index(f'id="way-{way.number}"') :].split("</section>")[0]
        assert all(one.how in shown for one in contacts)


def test_the_largest_cards_stay_small() -> None:
    """The demonstration's hold with the most ways out, at the station whose other sites here have none."""
    found = hold_site("K1B", "MX-AFT")
    guides = tuple(guide_of("MX-AFT", operation) for operation in Operation)
    whole = replace(found, recoveries=guides)
    for page in found.pages:
        html = card(site("K1B"), whole, page, environment(templates()))
        assert html.count('class="way"') > 50
        assert len(gzip.compress(html.encode(), mtime=0)) < 60_000


def test_a_release_from_before_there_were_guides_is_shown_without_them() -> None:
    found = hold_site("K1B", "TR-FWD")
    assert found.recoveries == ()
    html = card(site("K1B"), found, found.pages[0], environment(templates()))
    assert "trouble-" not in re.sub(r"<style>.*?</style>|<script>.*?</script>", "", html, flags=re.DOTALL)


def test_nothing_of_a_guide_is_lost_or_said_twice() -> None:
    guide = guide_of("SR-AFT", Operation.UNLOADING)
    used = {index for way in guide.ways for index in (*way.stop, *way.then)}
    assert used == set(range(len(guide.steps)))
    assert len(set(guide.steps)) == len(guide.steps)
    assert len(set(guide.ways)) == len(guide.ways)
    assert {case.way for case in guide.cases} == set(range(len(guide.ways)))
    assert {index for case in guide.cases for index in case.why} == set(range(len(guide.reasons)))
    later = [case for case in guide.cases if guide.ways[case.way].outcome is Outcome.LATER]
    assert later
    assert all(case.until >= case.first for case in later)


@pytest.mark.parametrize(
    ("places", "said"),
    [
        ((), ""),
        ((("44",),), "in 44"),
        ((("44",), ("43",), ("42",)), "in 44, 43 or 42"),
        ((("outside",), ("44",)), "on the platform, or in 44"),
        ((("outside", "44"),), "between the platform and 44"),
        ((("43",), ("44", "43")), "in 43, or between 44 and 43"),
    ],
)
def test_where_a_unit_stands_in_words(places: tuple[tuple[str, ...], ...], said: str) -> None:
    assert where(places) == said


def _at_step(page: Page, number: int) -> None:
    while page.locator(".screen.now").get_attribute("id") != f"step-{number}":
        page.click("#next")


@pytest.mark.browser
def test_help_at_a_step_shows_what_to_do_there_at_one_tap(context: BrowserContext, built: Path) -> None:
    watched = opened_card(context, built, CARD)
    page = watched.page
    _at_step(page, 18)
    page.click("#show-help")
    visible = page.locator(".trouble:visible")
    assert visible.count() == 1
    assert visible.locator("h3").inner_text() == "Step 18: something goes wrong"
    box, bar = visible.locator("h3").bounding_box(), page.locator(".bar").bounding_box()
    top = page.locator(".top").bounding_box()
    assert box is not None
    assert bar is not None
    assert top is not None
    assert top["y"] + top["height"] <= box["y"] < bar["y"]
    assert visible.locator("ol li").first.is_visible()
    assert page.locator(".way:visible").count() == 0
    page.locator(".trouble:visible a", has_text="The unit is jammed").first.tap()
    assert page.locator(".way:visible").count() == 1
    assert "do not push, pull or lever it" in page.locator(".way:visible").inner_text()
    assert "radio channel 2" in page.locator(".way:visible").inner_text()
    page.locator(".way:visible a.hz").first.tap()
    assert "crushes" in page.locator(".way:visible .hzd").first.inner_text()
    for link in page.locator(".trouble:visible a:visible").all():
        size = link.bounding_box()
        assert size is not None
        assert size["height"] >= 44
    page.click("#next")
    assert page.locator(".screen.now").get_attribute("id") == "step-18"
    page.locator("#step-18 .trouble-link a").tap()
    assert page.locator(".trouble:visible").count() == 1
    assert watched.trouble == []


@pytest.mark.browser
def test_with_scripts_off_every_step_leads_there_too(browser: Browser, built: Path) -> None:
    context = browser.new_context(viewport={"width": 360, "height": 740}, java_script_enabled=False)
    page = context.new_page()
    page.goto((built / CARD).as_uri())
    link = page.locator("#step-18 .trouble-link a")
    assert link.is_visible()
    link.click()
    assert page.locator(f"#{page.url.partition('#')[2]}").is_visible()
    assert page.locator(".way").first.is_visible()
    context.close()
