"""The station page says in which order an aircraft's holds are worked, where the data let it be reckoned."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from procgen import draw
from procgen.limits.stability_tables import stability_table
from procgen.model.stated import Stated
from procgen.publish import station_tree
from procgen.results.page import AircraftSite
from procgen.results.stability import Gear, HoldOrder, Stance
from procgen.units import of
from tests.publish.sites import site, templates


def order() -> tuple[Gear, HoldOrder]:
    gear = Gear(of(0, "m"), of(10, "m"), Stated(of(6, "%"), None))
    shares = {"": Fraction(12, 100), "SR-AFT 41": Fraction(5, 100)}
    stances = tuple(
        Stance(
            step,
            of(1000, "kg"),
            of(10 - 10 * share, "m"),
            of(1000 * share, "kg"),
            share,
            share >= Fraction(6, 100),
        )
        for step, share in shares.items()
    )
    return gear, HoldOrder(("SR-AFT",), stances, tail_stand=True)


def test_a_station_shows_the_sequence_as_a_chart_and_as_a_table() -> None:
    gear, found = order()
    title = "Skua 180, loading"
    one = AircraftSite(
        "SKUA-180-loading",
        title,
        draw.stability_chart(title, gear, found),
        stability_table("stability-SKUA-180-loading", title, gear, found),
    )
    text = station_tree(replace(site("N4T"), aircraft=(one,)), templates())["docs/index.md"]
    assert "## Order of the holds {: #stability }" in text
    assert "{: #stability-SKUA-180-loading }" in text
    assert "pg-cross" in text
    assert "SR-AFT 41" in text
    assert "tail stand is needed" in text


def test_cards_and_procedures_say_the_order_where_it_is_not_all_one() -> None:
    tree = station_tree(site("K1B"), templates())
    for page in ("docs/cards/MX-AFT-loading.html", "docs/procedures/MX-AFT-loading.md"):
        assert "Load TR-FWD, then " in tree[page]
        assert "With nothing forward a tail stand is needed" in tree[page]
    assert "Unload MX-AFT, then " in tree["docs/cards/TR-FWD-unloading.html"]
    assert "tail stand" not in tree["docs/cards/TR-FWD-unloading.html"]
    assert "Order of the holds" not in tree["docs/cards/SR-AFT-loading.html"]


def test_a_station_without_such_data_says_nothing_of_it() -> None:
    text = station_tree(replace(site("N4T"), aircraft=()), templates())["docs/index.md"]
    assert "Order of the holds" not in text
