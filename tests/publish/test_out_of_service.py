"""An item out of service on pages and cards: every item is found, every link leads on, state is text."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext

from procgen.publish import station_tree
from procgen.publish.card import card
from procgen.publish.out_of_service import items_shown, matrix_shown
from procgen.publish.rendering import environment
from procgen.publish.short_procedures import procedures_shown
from procgen.publish.touched import touched
from procgen.results.matrix import Answer
from procgen.results.page import HoldSite, LeftLimit
from procgen.units import of
from tests.pipeline.out_of_service import matrix_guide
from tests.publish.phone import card as opened_card
from tests.publish.sites import hold_site, site, templates

HOLDS = (("K1B", "SR-AFT"), ("K1B", "BK-AFT"), ("N4T", "MR-FWD"))


def _with(code: str, name: str) -> HoldSite:
    return replace(hold_site(code, name), out_of_service=matrix_guide(name))


def _tree(code: str, name: str) -> dict[str, str]:
    own = _with(code, name)
    return dict(station_tree(replace(site(code), holds=(own,)), templates()))


@pytest.mark.parametrize(("code", "name"), HOLDS)
def test_the_page_has_every_item_and_every_link_of_it_leads_to_an_anchor_or_a_page(
    code: str, name: str
) -> None:
    tree, guide = _tree(code, name), matrix_guide(name)
    page = tree[f"docs/out-of-service/{name}.md"]
    ids = re.findall(r'id="([^"]+)"', page)
    assert len(ids) == len(set(ids))
    for one in guide.items:
        assert f"item-{one.item}" in ids
        assert f"{one.item}-{one.failure}" in ids
    links = set(re.findall(r'href="([^"]+)"', page))
    assert {link[1:] for link in links if link.startswith("#") and not link.startswith("#sg-")} <= set(ids)
    shorts = {link for link in links if link.startswith(f"{name}/")}
    assert shorts <= {f"{name}/{one.name}.html" for one in guide.procedures}
    assert {f"docs/out-of-service/{link}" for link in shorts} <= set(tree)
    for contact in site(code).station.contacts:
        assert contact.how in page


@pytest.mark.parametrize(("code", "name"), HOLDS)
def test_the_table_says_every_answer_in_words_and_links_what_is_not_as_before(code: str, name: str) -> None:
    shown = matrix_shown(_with(code, name), "kg")
    assert shown is not None
    for _, rows in shown.tables:
        assert len(rows) == len(matrix_guide(name).items)
        for row in rows:
            assert len(row.cells) == len(shown.positions)
            assert all(cell.short and cell.href for cell in row.cells)
            assert all(cell.href == f"#{row.anchor}" for cell in row.cells if cell.grave is Answer.NOT_USABLE)


@pytest.mark.parametrize(("code", "name"), HOLDS)
def test_a_short_procedure_has_every_step_and_warning_and_says_what_it_is_for(code: str, name: str) -> None:
    own, tree = _with(code, name), _tree(code, name)
    assert list(procedures_shown(own))
    for short in procedures_shown(own):
        html = tree[f"docs/out-of-service/{name}/{short.name}.html"]
        assert short.items
        assert all(f'href="../{name}.html#{anchor}"' in html for _, anchor in short.items)
        numbers = [number for block in short.blocks for number, _ in block.steps]
        assert numbers == list(range(1, len(numbers) + 1))
        assert html.count('<li id="step-') == len(numbers)
        warnings = [*short.warnings, *(warning for block in short.blocks for warning in block.warnings)]
        warnings += [w for block in short.blocks for _, step in block.steps for w in step.warnings]
        assert html.count('role="note"') == len(warnings) > 0
        assert "come before this page" in html


@pytest.mark.parametrize(("code", "name"), HOLDS)
def test_from_every_step_of_a_card_its_items_are_one_tap_away(code: str, name: str) -> None:
    own = _with(code, name)
    for page in own.pages:
        html = card(site(code), own, page, environment(templates()))
        steps = [step for block in page.blocks for step in block.steps]
        links = re.findall(r'broken-link"><a href="#([^"]+)" data-items="([^"]*)"', html)
        assert len(links) == len(steps)
        for (target, items), step in zip(links, steps, strict=True):
            assert f'id="{target}"' in html
            assert tuple(items.split()) == touched(own, step.step)
        for item in items_shown(own, "kg", page.operation):
            assert f'id="broken-{item.name}"' in html
        assert any(items for _, items in links)


def test_a_drive_has_to_do_with_its_controls_its_rollers_the_power_and_what_stands_on_its_way() -> None:
    """By hand from the description of SR-AFT: into 44 through the door, over the sill stop."""
    own = _with("K1B", "SR-AFT")
    loading = next(page for page in own.pages if page.name == "SR-AFT-loading")
    drives = [step for block in loading.blocks for step in block.steps if "rive" in step.text]
    assert {"power", "stick", "door-drive", "sill-stop"} <= set(touched(own, drives[0].step))
    assert touched(own, None) == ()


def test_a_lower_limit_is_told_with_what_governs_and_rounded_down() -> None:
    own = _with("K1B", "SR-AFT")
    guide = matrix_guide("SR-AFT")
    first = guide.items[0].answers[0]
    limit = LeftLimit("AKE", of(1588, "kg"), of("900.9", "kg"), "restraint aft")
    lower = replace(first, answers=(Answer.LOWER_LIMIT,), limits=(limit,), reasons=())
    changed = replace(guide, items=(replace(guide.items[0], answers=(lower, *guide.items[0].answers[1:])),))
    (item,) = items_shown(replace(own, out_of_service=changed), "kg")
    assert item.failures[0].told[0].short == "lower limit"
    (said,) = item.failures[0].told[0].limits
    assert said.replace("\N{NO-BREAK SPACE}", " ").startswith("AKE: at most 900 kg (1 986 lb), restraint aft")


def test_a_release_without_a_matrix_has_no_page_and_no_link_to_one() -> None:
    bare = replace(hold_site("K1B", "SR-AFT"), out_of_service=None)
    tree = station_tree(replace(site("K1B"), holds=(bare,)), templates())
    assert not [path for path in tree if path.startswith("docs/out-of-service")]
    assert not [path for path, text in tree.items() if "out-of-service/" in text]


def test_beside_not_usable_stands_no_mass_that_it_may_carry() -> None:
    """A sill lock that is down lets no door close; that it also lowers a limit is no leave to load."""
    own = _with("N4T", "MR-FWD")
    told = [told for item in items_shown(own, "lb") for one in item.failures for told in one.told]
    unusable = [one for one in told if one.grave is Answer.NOT_USABLE]
    assert len(unusable) > 10
    assert [limit for one in unusable for limit in one.limits if "at most" in limit] == []
    assert all(one.reasons or one.limits for one in unusable)
    sill = next(
        one for item in items_shown(own, "lb") for one in item.failures if item.name == "aft-sill-lock"
    )
    assert [(one.operation, one.positions) for one in sill.told] == [
        ("Loading", "21, 22, 23"),
        ("Unloading", "21, 22, 23"),
    ]


TAPS = """() => {
  const seen = (e) => e.offsetParent !== null, lost = [];
  const items = [...document.querySelectorAll(".gone")];
  let steps = 0, ways = 0;
  for (const step of document.querySelectorAll(".screen.step")) {
    while (document.querySelector(".screen.now") !== step) document.getElementById("next").click();
    steps += 1;
    step.querySelector(".broken-link a").click();
    const first = items.filter(seen);
    if (first.length < items.length) document.querySelector(".gone-all a").click();
    lost.push(...items.filter((e) => !seen(e)).map((e) => step.id + " " + e.id));
    document.getElementById("next").click();
    const link = step.querySelector(".trouble-link a");
    if (!link) continue;
    link.click();
    for (const way of [...document.querySelectorAll(".trouble.now .which-way a")]) {
      way.click();
      ways += 1;
      const there = document.querySelector(way.getAttribute("href"));
      if (!seen(there)) lost.push(step.id + " " + there.id);
    }
    document.getElementById("next").click();
  }
  return [lost, steps, ways, items.length];
}"""


@pytest.mark.browser
def test_every_item_and_every_way_is_two_taps_from_every_step(context: BrowserContext, built: Path) -> None:
    page = opened_card(context, built, "N4T/cards/MR-FWD-loading.html").page
    lost, steps, ways, items = page.evaluate(TAPS)
    assert lost == []
    assert steps == sum(len(block.steps) for block in hold_site("N4T", "MR-FWD").pages[0].blocks)
    assert ways > steps / 2
    assert items == len({one.item for one in matrix_guide("MR-FWD").items})
