"""Which aircraft a page is for: said on every page, picked on the station's, loud where it is another's."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from procgen.publish import station_tree
from procgen.publish.applies import applies, choices
from procgen.release.pages import effective_pages
from procgen.results.edition import Edition
from tests.publish.sites import hold_site, site, templates

ONLY = "Applies to Q4-R1, Q4-R2 only, not to Q4-R3, Q4-R4."


@pytest.fixture
def offline(browser: Browser) -> Iterator[BrowserContext]:
    """A phone without scripts."""
    opened = browser.new_context(viewport={"width": 360, "height": 740}, java_script_enabled=False)
    yield opened
    opened.close()


def _url(built: Path, file: str) -> str:
    return (built / "N4T" / file).as_uri()


def test_every_page_of_a_variant_says_which_aircraft_it_is_for() -> None:
    tree = station_tree(site("N4T"), templates())
    for file in (
        "holds/MR-FWD.md",
        "limits/MR-FWD.md",
        "loads/MR-FWD.md",
        "procedures/MR-FWD-loading.md",
        "recovery/MR-FWD-loading.md",
        "cards/MR-FWD-loading.html",
    ):
        text = tree[f"docs/{file}"]
        there = file.replace("MR-FWD", "MR-FWD-M9").replace(".md", ".html")
        assert ONLY in text, file
        assert f'href="../{there}" data-marks="Q4-R3 Q4-R4"' in text, file
    card = tree["docs/cards/MR-FWD-loading.html"]
    assert card.index(ONLY) < card.index('class="screen step"')
    assert '<b class="only">Q4-R1, Q4-R2 only</b>' in card[: card.index("</header>")]
    paper = card[card.index('class="paper revision"') :]
    assert ONLY in paper[: paper.index("</div>")]
    assert "Applies to every Skua 180: Q4-R1, Q4-R2, Q4-R3, Q4-R4." in tree["docs/cards/SR-AFT-loading.html"]


def test_a_site_that_knows_no_registration_says_nothing_of_them() -> None:
    whole = site("N4T")
    bare = replace(
        whole,
        holds=tuple(
            replace(hold, aircraft_type=hold.aircraft_type and replace(hold.aircraft_type, registrations={}))
            for hold in whole.holds
        ),
    )
    assert choices(bare) == ()
    assert 'id="applies"' not in "".join(station_tree(bare, templates()).values())


def test_an_aircraft_whose_variant_is_not_worked_here_is_named() -> None:
    whole = site("N4T")
    less = replace(whole, holds=tuple(hold for hold in whole.holds if hold.hold.name != "MR-FWD-M9"))
    found = applies(less, hold_site("N4T", "MR-FWD"), "holds")
    assert found is not None
    assert (found.others, found.left_out) == ((), ("Q4-R3", "Q4-R4"))
    assert (
        "Not worked here: the hold of Q4-R3, Q4-R4" in station_tree(less, templates())["docs/holds/MR-FWD.md"]
    )


def test_the_list_of_effective_pages_says_which_aircraft_each_is_for() -> None:
    whole = site("N4T")
    pages = {page.file: page.applies for page in effective_pages(whole)}
    assert pages["cards/MR-FWD-M9-loading.html"] == "Q4-R3, Q4-R4"
    assert pages["holds/SR-AFT.html"] == ""
    text = station_tree(Edition(whole, pages=effective_pages(whole)), templates())["docs/revisions.md"]
    row = text[text.index('href="holds/MR-FWD.html"') :]
    assert row.index('<td data-label="Applies to">Q4-R1, Q4-R2</td>') < row.index("</tr>")


def _pick(page: Page, built: Path, mark: str) -> None:
    page.goto(_url(built, "index.html"))
    page.select_option("#aircraft-select", mark)


def test_a_pick_shows_what_applies_and_says_what_it_hides(built: Path, context: BrowserContext) -> None:
    page = context.new_page()
    _pick(page, built, "Q4-R3")
    told = page.inner_text("#aircraft-told")
    assert told == "For Q4-R3 shown: SR-AFT, MR-FWD-M9. Hidden, because not for Q4-R3: 1 (MR-FWD)."
    assert page.is_hidden("tr[data-hold='MR-FWD']")
    assert page.is_visible("tr[data-hold='MR-FWD-M9']")
    page.reload()
    assert page.input_value("#aircraft-select") == "Q4-R3"
    assert page.is_hidden("tr[data-hold='MR-FWD']")
    page.select_option("#aircraft-select", "")
    assert page.is_visible("tr[data-hold='MR-FWD']")


@pytest.mark.parametrize("file", ["cards/MR-FWD-loading.html", "holds/MR-FWD.html"])
def test_a_page_for_other_aircraft_says_so_loudly_and_leads_to_the_right_one(
    file: str, built: Path, context: BrowserContext
) -> None:
    page = context.new_page()
    _pick(page, built, "Q4-R3")
    page.goto(_url(built, file))
    loud = page.locator("#applies-picked")
    assert "STOP. Not for Q4-R3, which you picked." in loud.inner_text()
    box = loud.bounding_box()
    assert box is not None
    assert box["y"] + box["height"] < 740
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    loud.locator("a").click()
    page.wait_for_url(_url(built, file.replace("MR-FWD", "MR-FWD-M9")))  # and until it has loaded
    assert page.inner_text("#applies-picked") == "You picked Q4-R3: this page is for it."


def test_without_scripts_every_aircraft_is_listed_with_its_holds(
    built: Path, offline: BrowserContext
) -> None:
    page = offline.new_page()
    page.goto(_url(built, "index.html"))
    assert page.is_hidden("#aircraft-select")
    row = page.locator("tr", has=page.locator("th", has_text="Q4-R4"))
    assert row.locator("a").all_inner_texts() == ["SR-AFT", "MR-FWD-M9"]
    page.goto(_url(built, "cards/MR-FWD-loading.html"))
    assert ONLY in page.inner_text("#applies")
    assert page.is_hidden("#applies-picked")
