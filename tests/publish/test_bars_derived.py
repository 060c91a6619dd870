"""Change bars on the pages that are derived from a hold: the ways out of mishaps, items out of service."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page

from procgen.diff import differences
from procgen.publish import station_tree
from procgen.results.difference import Difference
from procgen.results.edition import Edition
from tests.publish.changed import GENTLY, GUIDE, HOLD, ITEM, NEW_HOLD, PUSHED, changed
from tests.publish.sites import WITH_RECOVERIES, site, templates
from tests.publish.test_bars import Read

RECOVERY = f"docs/recovery/{GUIDE}.md"
MATRIX = f"docs/out-of-service/{HOLD}.md"


@cache
def tree() -> dict[str, str]:
    return dict(station_tree(changed(), templates()))


def _of(what: str) -> list[Difference]:
    found = [one for one in changed().differences if one.identity.startswith(f"{HOLD}/{what}/")]
    assert found, what
    return found


def test_other_ways_out_stand_once_at_the_head_of_their_page_and_of_the_card() -> None:
    (told,) = _of("recoveries")
    assert told.was is not None
    text = tree()[RECOVERY]
    head = text[: text.index("{: #steps }")]
    assert head.count(f'data-difference="{told.identity}"') == 1
    assert told.was.text in head
    for path, other in tree().items():
        stands = other.count(f'data-difference="{told.identity}"')
        assert stands == (path in (RECOVERY, f"docs/cards/{GUIDE}.html")), path


def test_another_answer_stands_at_the_failure_it_is_about_and_on_no_other_page() -> None:
    item, failure = ITEM
    for told in _of("out-of-service"):
        assert told.was is not None
        around = [nodes for identity, nodes in Read(tree()[MATRIX]).found if identity == told.identity]
        assert len(around) == 1
        section = next(node for node in around[0] if node.tag == "section")
        assert section.attrs["aria-labelledby"] == f"item-{item}"
        assert f'data-difference="{told.identity}"' in tree()[MATRIX].split(f'id="{item}-{failure}"')[1]
        assert told.was.text in tree()[MATRIX]
        assert [path for path, text in tree().items() if f'data-difference="{told.identity}"' in text] == [
            MATRIX
        ]


def test_who_picks_an_item_sees_which_has_changed() -> None:
    picks = dict(re.findall(r'<li( class="[^"]*")?><a href="#item-([^"]*)">[^<]*\(2 changes', tree()[MATRIX]))
    assert picks == {' class="chg-at chg-loosened"': ITEM[0]}


def test_pages_that_have_no_bar_promise_none() -> None:
    for path, text in tree().items():
        if path.startswith(("docs/recovery/", "docs/out-of-service/")):
            assert ("chg-note" in text) == ('class="chg ' in text), path


@pytest.mark.parametrize("came", [True, False])
def test_a_matrix_that_came_or_went_is_told_once(came: bool) -> None:
    now = site(WITH_RECOVERIES)
    bare = replace(
        now,
        holds=tuple(replace(one, out_of_service=None) if one.hold.name == HOLD else one for one in now.holds),
    )
    was, is_now = (bare, now) if came else (now, bare)
    edition = Edition(is_now, differences=differences(was, is_now), first=False, against=1)
    (told,) = edition.differences
    pages = {
        path: text.count(f'data-difference="{told.identity}"')
        for path, text in station_tree(edition, templates()).items()
    }
    assert {path: count for path, count in pages.items() if count} == {f"docs/holds/{HOLD}.md": 1} or {
        path: count for path, count in pages.items() if count
    } == {MATRIX: 1}


def _papers(text: str) -> Iterator[str]:
    for found in re.findall(r'<span class="chg-paper">(.*?)</span>', text, re.DOTALL):
        yield found.strip(" .")


def test_paper_tells_what_changed_alike_in_a_fold_once() -> None:
    text = tree()[f"docs/procedures/{PUSHED}-unloading.md"]
    folded = [words for words in _papers(text) if words.startswith("Unit of")]
    assert folded
    for words in folded:
        assert words.startswith("Unit of 22, unit of 21: the words. Was: Push ")
        assert words.count(GENTLY.rstrip(".")) == 1
        assert "step “" not in words
        assert ".." not in words
    name = f"{PUSHED}-unloading"
    own = [one for one in changed().differences if any(anchor.name == name for anchor in one.anchors)]
    assert len(own) >= 2
    assert {text.count(f'data-difference="{one.identity}"') for one in own} == {1}, "a tap tells each of them"


@pytest.fixture
def opened(context: BrowserContext, built_changed: Path) -> Page:
    page = context.new_page()
    page.goto((built_changed / "index.html").as_uri())
    return page


@pytest.mark.browser
def test_the_words_of_a_marked_row_keep_off_its_bar(opened: Page) -> None:
    for width in (360, 1280):
        opened.set_viewport_size({"width": width, "height": 740})
        gaps = opened.locator(f"tr[data-hold='{NEW_HOLD}'].chg-at").evaluate(
            """(row) => [...row.cells].map((cell) => {
              const every = document.createTreeWalker(cell, NodeFilter.SHOW_TEXT);
              const words = document.createRange();
              let left = Infinity;
              while (every.nextNode()) {
                words.selectNode(every.currentNode);
                const box = words.getBoundingClientRect();
                if (box.width) left = Math.min(left, box.left);
              }
              return left - row.getBoundingClientRect().left - 8;
            })"""
        )
        assert len(gaps) == 4
        assert min(gaps) >= 4, width
