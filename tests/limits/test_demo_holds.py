"""Cells of the demonstration holds, worked by hand from the numbers in their descriptions.

g0 = 9.80665 m/s2 throughout. Every number is cut, as a limit is.
"""

from __future__ import annotations

import json

import pytest

from procgen.diagnostics import NOWHERE
from procgen.limits import position_cell, position_table
from procgen.report import limits_json, limits_text
from procgen.results.limits import LimitCell
from tests.support import demo, demo_hold, demo_with


def cell(hold: str, position: str, unit_type: str) -> LimitCell:
    one = demo_hold(hold)
    return position_cell(one, one.positions[position], demo().network.unit_types[unit_type])


def masses(found: LimitCell) -> dict[str, str]:
    return {candidate.kind: candidate.mass.down(1) for candidate in found.candidates}


def test_single_row_position_41() -> None:
    """forward 44 kN / 1.5 g = 44 000 / 14.709975 = 2991.1 (the end stop; lock 41 stands aft of the unit);
    aft 17 800 / 14.709975 = 1210.0; left and right 30 000 / (1.3 x g0 = 12.748645) = 2353.1;
    up (8.9 + 8.9 + 30) kN / 2 g = 47 800 / 19.6133 = 2437.1; running 760 kg/m x 1.534 m = 1165.84.
    """
    found = cell("SR-AFT", "41", "AKH")
    assert masses(found) == {
        "unit-maximum": "1 134.0 kg",
        "position-limit": "1 134.0 kg",
        "running-load": "1 165.8 kg",
        "restraint-aft": "1 210.0 kg",
        "restraint-left": "2 353.1 kg",
        "restraint-right": "2 353.1 kg",
        "restraint-up": "2 437.1 kg",
        "restraint-forward": "2 991.1 kg",
    }
    assert found.governing is not None
    assert found.governing.kind == "unit-maximum"


def test_single_row_position_44_at_the_door() -> None:
    """right (10 + 24) kN / 1.3 g = 34 000 / 12.748645 = 2666.9; aft 44 kN = 2991.1 as above;
    up (8.9 + 8.9 + 30) kN = 2437.1; the position's own 1000 kg governs.
    """
    found = cell("SR-AFT", "44", "PKC")
    assert masses(found)["restraint-right"] == "2 666.9 kg"
    assert masses(found)["restraint-aft"] == "2 991.1 kg"
    assert masses(found)["restraint-up"] == "2 437.1 kg"
    assert found.governing is not None
    assert (found.governing.kind, str(found.limit)) == ("position-limit", "1000 kg")


def test_twin_row_position_11_right() -> None:
    """running 1210 kg/m x 1.534 m = 1856.14; forward 48 kN / 1.5 g = 3263.0 (the end stop: lock 11R stands
    aft of the unit); aft 24 000 / 14.709975 = 1631.5; left 26 000 / (1.2 x g0 = 11.76798) = 2209.3 (the
    centreline rail stands left of it); right 26 kN = 2209.3 (the side rail);
    up (14 + 14 + 12 + 12) kN / 1.8 g = 52 000 / 17.65197 = 2945.8.
    """
    assert masses(cell("TR-FWD", "11R", "AKE")) == {
        "unit-maximum": "1 588.0 kg",
        "position-limit": "1 588.0 kg",
        "restraint-aft": "1 631.5 kg",
        "running-load": "1 856.1 kg",
        "restraint-left": "2 209.3 kg",
        "restraint-up": "2 945.8 kg",
        "restraint-right": "2 209.3 kg",
        "restraint-forward": "3 263.0 kg",
    }


def test_twin_row_position_14_right_at_the_door() -> None:
    """left (9 + 9) kN / 1.2 g = 18 000 / 11.76798 = 1529.5 (the two sill locks); 1450 kg governs."""
    found = cell("TR-FWD", "14R", "AKE")
    assert masses(found)["restraint-left"] == "1 529.5 kg"
    assert found.governing is not None
    assert (found.governing.kind, str(found.limit)) == ("position-limit", "1450 kg")


def test_unit_of_the_other_hold_is_not_acceptable_and_says_every_reason() -> None:
    assert cell("SR-AFT", "41", "AKE").reasons == (
        "it is 1626 mm high; the hold has 1.24 m of clear height",
        "it is 1626 mm high; the aft cargo door is 1.22 m high",
        "its contour is E; the position takes contour H, C",
    )


@pytest.mark.parametrize("name", ["SR-AFT", "TR-FWD"])
def test_every_number_of_the_demonstration_has_a_source_and_a_place(name: str) -> None:
    table = position_table(demo_hold(name), demo().network.unit_types)
    assert len(table.cells) == len(demo_hold(name).positions) * len(demo().network.unit_types)
    for found in table.cells:
        assert bool(found.candidates) != bool(found.reasons)
        for candidate in found.candidates:
            assert candidate.sources, (found.position, candidate.kind)
            assert candidate.places
            assert NOWHERE not in candidate.places


def test_unit_load_devices_of_the_fleet() -> None:
    """Trade textbook table named in limits.md: base K 1534 x 1562 mm; a container of the LD3 size has a
    maximum gross mass of 1588 kg.
    """
    container = demo().network.unit_types["AKE"]
    assert (str(container.base.length), str(container.base.width)) == ("1534 mm", "1562 mm")
    assert str(container.max_gross.quantity) == "1588 kg"


def test_one_word_in_the_description_changes_what_governs() -> None:
    loaded = demo_with(
        "fleet/holds/SR-AFT.yaml",
        "    rating: {right: 10 kN}\n",
        "    rating: {left: 10 kN}\n",
    )
    one = loaded.network.holds["SR-AFT"]
    before = masses(cell("SR-AFT", "44", "AKH"))
    after = masses(position_cell(one, one.positions["44"], loaded.network.unit_types["AKH"]))
    assert before["restraint-right"] == "2 666.9 kg"
    assert after["restraint-right"] == "1 882.5 kg"  # 24 000 / 12.748645


def test_tables_of_the_demonstration_name_their_places() -> None:
    table = position_table(demo_hold("SR-AFT"), demo().network.unit_types)
    cells = json.loads(limits_json(table, demo().documents))["cells"]
    aft = next(c for c in cells[1]["candidates"] if c["kind"] == "restraint-aft")
    assert aft["reckoning"] == "(lock 41 17.8 kN) / (1.5 × 9.80665 m/s2) = 1 210.0… kg"
    assert aft["sources"] == ["WB 4-2", "WB 2-1"]
    assert [place["file"] for place in aft["places"]] == ["fleet/holds/SR-AFT.yaml"] * 2
    assert "rating: {forward: 17.8 kN, aft: 17.8 kN" in aft["places"][0]["text"]
    assert aft["places"][1]["text"] == "  aft: 1.5 g"
    text = limits_text(table, "lb", demo().documents, root="stations")
    assert "2 500 lb (1 134 kg)  governed by unit maximum" in text
    assert "stations/fleet/fleet.yaml:" in text
