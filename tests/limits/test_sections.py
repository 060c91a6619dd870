"""The most a zone takes and the package tables, on the demonstration's holds; and how they are printed."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from procgen.cli.main import main
from procgen.limits.packages import package_tables
from procgen.limits.zone_most import zone_most
from procgen.model.hold import Hold
from procgen.units import of
from tests.support import STATIONS, demo, demo_hold


def test_the_most_of_each_zone_and_what_stops_it() -> None:
    """Hand-worked: the doorway's two positions carry 1450 kg each, together 2600 kg. From 12.20 to 14.40 m
    lie 1134 kg and twice 16.1 % of 1134 kg: 1499.2 kg, just within 1500 kg, so nothing stops the three units.
    """
    most = zone_most(demo_hold("TR-FWD"), demo().network.unit_types)["doorway"]
    assert (most.total, [use.title for use in most.stopped_by]) == (of(2600, "kg"), ["doorway"])
    frames = zone_most(demo_hold("SR-AFT"), demo().network.unit_types)["mid-frames"]
    assert (frames.total, frames.stopped_by, frames.own_limits) == (of(3402, "kg"), (), ("41", "42", "43"))


def test_positions_that_share_floor_are_not_loaded_together() -> None:
    hold = demo_hold("SR-AFT")
    bays = {**hold.bays, "42": replace(hold.bays["42"], rectangle=hold.bays["41"].rectangle)}
    zones = {"pair": replace(hold.zones["aft-hold"], name="pair", positions=("41", "42"))}
    crossed: Hold = replace(hold, bays=bays, zones=zones, cumulative={})
    most = zone_most(crossed, demo().network.unit_types)["pair"]
    assert (most.total, len(most.masses)) == (of(1134, "kg"), 1)


@pytest.mark.parametrize("name", ["SR-AFT", "TR-FWD"])
def test_no_package_is_longer_for_being_wider_or_higher(name: str) -> None:
    (table,) = package_tables(demo_hold(name)).values()
    lengths = [[one.length.si if one.length else of(0, "m").si for one in row] for row in table.rows]
    for row in lengths:
        assert row == sorted(row, reverse=True)
    for column in zip(*lengths, strict=True):
        assert list(column) == sorted(column, reverse=True)


def test_without_wall_or_cross_section_there_is_no_package_table() -> None:
    hold = demo_hold("SR-AFT")
    assert package_tables(replace(hold, cross_section=None)) == {}
    doors = {name: replace(door, wall=None) for name, door in hold.doors.items()}
    assert package_tables(replace(hold, doors=doors)) == {}


@pytest.mark.parametrize(
    ("section", "words"),
    [("zones", "stopped by doorway"), ("missing", "lock-11R and lock-12R"), ("doors", "forward-door")],
)
def test_each_section_prints(section: str, words: str, capsys: pytest.CaptureFixture[str]) -> None:
    asked = ["limits", "TR-FWD", "--stations", str(STATIONS), "--section", section, "--unit", "lb"]
    assert main(asked) == 0
    assert words in capsys.readouterr().out
    assert main([*asked, "--format", "json"]) == 0
    assert json.loads(capsys.readouterr().out)["hold"] == "TR-FWD"
