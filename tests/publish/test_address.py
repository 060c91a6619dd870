"""The address of a card on paper, in letters and as a square code; nothing without an address."""

from __future__ import annotations

import pytest

from procgen.diagnostics import ProcgenError
from procgen.publish.address import card_address, checked_address, square_code
from procgen.publish.card import card
from procgen.publish.rendering import environment
from tests.publish.sites import hold_site, site, templates

BASE = "https://manuals.example/holds"


def _card(address: str) -> str:
    found = hold_site("K1B", "SR-AFT")
    return card(site("K1B"), found, found.pages[0], environment(templates()), address)


def test_with_an_address_paper_shows_the_cards_own_and_its_code() -> None:
    html = _card(BASE)
    own = f"{BASE}/K1B/cards/SR-AFT-loading.html"
    assert f"The current card: {own}" in html
    assert square_code(own) in html
    assert square_code(own) != square_code(f"{BASE}/K1B/cards/SR-AFT-unloading.html")


def test_without_an_address_there_is_no_code() -> None:
    assert "The current card" not in _card("")
    assert square_code(card_address("", "K1B", "SR-AFT-loading")) == ""


def test_the_code_has_its_quiet_zone_and_the_size_of_its_version() -> None:
    """A version has 17 + 4 v modules a side, and 4 light ones around (ISO/IEC 18004; memory)."""
    side = int(square_code(f"{BASE}/K1B/cards/SR-AFT-loading.html").split('viewBox="0 0 ')[1].split(" ")[0])
    assert (side - 8 - 17) % 4 == 0
    assert 1 <= (side - 8 - 17) // 4 <= 40


@pytest.mark.parametrize("text", ["", "  ", "https://a.example/x/", "http://a.example"])
def test_an_address_loses_its_last_slash(text: str) -> None:
    assert checked_address(text) == text.strip().rstrip("/")


@pytest.mark.parametrize(
    "text", ["manuals.example", "file:///x", "https://", "https://a b", 'https://a"', "https://a#b"]
)
def test_what_a_phone_could_not_open_is_refused(text: str) -> None:
    with pytest.raises(ProcgenError, match="is no address of a site"):
        checked_address(text)
