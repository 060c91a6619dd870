"""Loose loads: a type without a body, a section that takes them, a door that is named, steps by hand."""

from __future__ import annotations

import pytest

from procgen.model.step import Present, Stow
from tests.load.full import FILES, HAZARDS
from tests.support import load_texts

FLEET = "fleet/fleet.yaml"
STEPS = "T1A/procedures/every-verb.yaml"


def test_a_loose_type_has_no_body() -> None:
    network = load_texts(FILES, HAZARDS).network
    loose, box = network.unit_types["LS"], network.unit_types["AKE"]
    assert loose.loose
    assert not box.loose
    assert (loose.contour, loose.base.code) == ("", "")
    assert loose.base.length.si == loose.base.width.si == loose.height.si == 0
    assert [name for name, bay in network.holds["FULL"].bays.items() if bay.bulk] == ["C"]


def test_the_door_and_the_crew_are_read() -> None:
    steps = load_texts(FILES, HAZARDS).network.stations["T1A"].procedures[0].steps
    assert [step for step in steps if isinstance(step, Present)] == [Present("u1"), Present("u1", "door")]
    assert [step for step in steps if isinstance(step, Stow)] == [Stow("u1", 2, ("outside", "C"))]


SLIPS = {
    "a tare": (FLEET, "loose: true, max-gross", "loose: true, tare: 9 kg, max-gross", ["contradicting-keys"]),
    "a body": (
        FLEET,
        "loose: true, max-gross",
        "loose: true, base: K, height: 1 m, contour: E, max-gross",
        ["contradicting-keys"] * 3,
    ),
    "no body": (FLEET, "loose: true, max-gross", "max-gross", ["missing-key"] * 3),
    "half a body": (FLEET, "    height: 1626 mm\n", "", ["missing-key"]),
    "a misspelt key": (FLEET, "    height: 1626 mm\n", "    heigth: 1626 mm\n", ["unknown-key"]),
    "loose in words": (FLEET, "loose: true", "loose: quite", ["wrong-type"]),
    "no door": (STEPS, "present: {unit: u1, door: door}", "present: {unit: u1}", ["missing-key"]),
    "a list": (STEPS, "present: {unit: u1, door: door}", "present: [u1]", ["wrong-type"]),
    "no crew": (STEPS, "stow: {unit: u1, crew: 2,", "stow: {unit: u1,", ["missing-key"]),
    "nobody": (STEPS, "stow: {unit: u1, crew: 2,", "stow: {unit: u1, crew: 0,", ["number-too-small"]),
}


@pytest.mark.parametrize("name", SLIPS)
def test_a_slip_is_found_where_it_is(name: str) -> None:
    file, find, put, rules = SLIPS[name]
    assert FILES[file].count(find) == 1
    loaded = load_texts({**FILES, file: FILES[file].replace(find, put)}, HAZARDS)
    assert [finding.rule for finding in loaded.findings] == rules
    assert all(finding.suggestion for finding in loaded.findings)
