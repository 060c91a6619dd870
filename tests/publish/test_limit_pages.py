"""The page of a hold's limits in full: every table, and why behind every number."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from fractions import Fraction

import pytest

from procgen.diagnostics import Place
from procgen.publish import station_tree
from procgen.publish.limit_rows import accepted
from procgen.publish.limit_tables import door_tables, missing_groups, zone_rows
from procgen.publish.words import both
from procgen.report import limits_json, limits_text
from procgen.results.hold_tables import HoldTables, place_key
from procgen.units import of
from tests.publish.sites import checked, hold_site, site, templates


def page(code: str, hold: str) -> str:
    return station_tree(site(code), templates())[f"docs/limits/{hold}.md"]


def test_a_zone_says_the_most_it_takes_and_what_stops_it() -> None:
    """SR-AFT: 3 x 1134 kg + 598 kg come to the 4000 kg of the whole hold."""
    whole, frames = zone_rows(hold_site("K1B", "SR-AFT"), "kg")
    assert whole.most == "4\u00a0000\u00a0kg (8\u00a0818\u00a0lb)"
    assert [stop.title for stop in whole.stops] == ["aft hold"]
    assert whole.stops[0].value == "4000 kg"
    assert [str(source) for source in whole.stops[0].sources] == ["WB 5-2"]
    assert frames.stops == ()
    assert frames.own == ("41", "42", "43")
    assert "Every position is at its own limit" in page("K1B", "SR-AFT")


def test_a_computed_limit_is_cut_and_never_a_fraction() -> None:
    (whole, _) = zone_rows(hold_site("K1B", "TR-FWD"), "kg")
    assert whole.stops[0].value == "11 159 kg"  # 11159.56... kg on the line between two points


def test_every_number_names_the_line_of_data_it_stands_in() -> None:
    hold = hold_site("K1B", "SR-AFT")
    (whole, _) = zone_rows(hold, "kg")
    (place,) = whole.stops[0].places
    file, _, line = place.rpartition(":")
    text = checked().documents[file].text.splitlines()[int(line) - 1]
    assert "combined: 4000 kg" in text
    assert place in page("K1B", "SR-AFT")


def test_a_place_that_no_document_knows_is_named_without_a_line() -> None:
    hold = replace(hold_site("K1B", "SR-AFT"), lines={})
    (whole, _) = zone_rows(hold, "kg")
    assert whole.stops[0].places == ("fleet/holds/SR-AFT.yaml",)
    assert place_key(Place("a.yaml", ("x", 1))) == "a.yaml#x/1"
    assert place_key(Place("a.yaml", ("x", 1), on_key=True)) == "a.yaml#x/1!"


def test_what_is_left_with_a_lock_out_stands_under_its_name() -> None:
    """With the sill lock out, the inner guide alone holds 44 to the right: 10 kN / 1.3 g = 784 kg."""
    groups = {group.titles: group for group in missing_groups(hold_site("K1B", "SR-AFT"), "kg")}
    sill = groups[("door sill lock",)]
    assert {left.limit for left in sill.left} == {"784\u00a0kg (1\u00a0729\u00a0lb)"}
    assert {left.before for left in sill.left} == {"1\u00a0000\u00a0kg (2\u00a0204\u00a0lb)"}
    assert all(left.candidates[0].title == "restraint right" for left in sill.left)
    assert [left.answer for left in groups[("inner guide",)].left] == ["as before"]
    both = groups[("lock 41", "lock 42")]
    assert [(left.answer, left.places) for left in both.left] == [
        ("not usable", (("42", ("AKH", "PKC")),)),
    ]
    singles = [len(group.titles) for group in groups.values()]
    assert singles == sorted(singles)  # pairs come last


def test_no_row_of_the_missing_table_is_lost_on_the_page() -> None:
    hold = hold_site("K1B", "TR-FWD")
    shown = [
        (group.anchor, position, kind)
        for group in missing_groups(hold, "kg")
        for left in group.left
        for position, kinds in left.places
        for kind in kinds
    ]
    given = [("-".join(("out", *row.out)), row.position, row.unit_type) for row in hold.tables.missing]
    assert sorted(shown) == sorted(given)


def test_heights_for_which_the_same_goes_in_are_said_once() -> None:
    hold = hold_site("K1B", "SR-AFT")
    (door,) = door_tables(hold)
    assert [table.height for table in door.heights] == ["1\u00a0220\u00a0mm (48.0\u00a0in)"]
    assert [row.width for row in door.heights[0].rows][-1] == "1\u00a0620\u00a0mm (63.7\u00a0in)"
    table = hold.tables.packages["aft-door"]
    narrower = tuple(replace(one, length=of(900, "mm")) for one in table.rows[-1])
    tables = HoldTables(packages={"aft-door": replace(table, rows=(*table.rows[:-1], narrower))})
    (door,) = door_tables(replace(hold, tables=tables))
    assert [one.height for one in door.heights] == [
        "1\u00a0000\u00a0mm (39.3\u00a0in)",
        "1\u00a0220\u00a0mm (48.0\u00a0in)",
    ]
    assert {row.longest for row in door.heights[-1].rows} == {"900\u00a0mm (35.4\u00a0in)"}


def test_a_piece_that_does_not_go_in_says_why() -> None:
    hold = hold_site("K1B", "SR-AFT")
    table = hold.tables.packages["aft-door"]
    none = tuple(replace(one, length=None, way="", why="the door is 1.22 m high") for one in table.rows[-1])
    tables = HoldTables(packages={"aft-door": replace(table, rows=(none,))})
    text = station_tree(replace(site("K1B"), holds=(replace(hold, tables=tables),)), templates())[
        "docs/limits/SR-AFT.md"
    ]
    assert text.count("None: the door is 1.22 m high") == len(none)


@pytest.mark.parametrize("hold", ["TR-FWD", "SR-AFT"])
def test_the_page_works_without_scripts_and_links_to_the_sources(hold: str) -> None:
    text = page("K1B", hold)
    assert (
        "<script" not in text[text.index("\n## ") :]
    )  # the head judges the revision's age; the tables ask for none
    assert text.count("<details") == text.count("<summary>") > 10
    assert f'href="../holds/{hold}.html#source-WB">WB' in text
    assert re.findall(r'<tbody id="(out-[^"]+)">', text) == list(
        dict.fromkeys(re.findall(r'<tbody id="(out-[^"]+)">', text))
    )


@pytest.mark.parametrize(("code", "hold"), [("K1B", "TR-FWD"), ("N4T", "SR-AFT")])
def test_text_page_and_json_say_the_same_of_every_cell(code: str, hold: str) -> None:
    """The number, what governs it, every other candidate, sources and the line of data: in all three."""
    found, documents = hold_site(code, hold), checked().documents
    unit = site(code).station.mass_unit
    data = json.loads(limits_json(found.limits, documents, root="stations"))["cells"]
    text = limits_text(found.limits, unit)
    rows = {(row.position, row.unit_type): row for row in accepted(found, unit)}
    assert sum(cell["acceptable"] for cell in data) == len(rows) > 0
    for cell in (cell for cell in data if cell["acceptable"]):
        row = rows[cell["position"], cell["unit_type"]]
        limit = of(Fraction(cell["limit"]["kg"]), "kg")
        assert row.limit == both(limit, unit)
        assert limit.to(unit).down() in text
        page_says = [(row.governs, row.reckoning, row.sources, row.places)]
        page_says += [(one.title, one.reckoning, one.sources, one.places) for one in row.others]
        assert len(cell["candidates"]) == len(page_says)
        for told, (title, reckoning, sources, places) in zip(cell["candidates"], page_says, strict=True):
            assert (told["title"], told["reckoning"]) == (title, reckoning)
            assert reckoning in text
            assert told["sources"] == [str(source) for source in sources]
            lines = [f"{place['file'].removeprefix('stations/')}:{place['line']}" for place in told["places"]]
            assert list(places) == list(dict.fromkeys(lines))
