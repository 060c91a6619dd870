"""Layouts that are meant: the rules about the data keep silent on them, and speak where they are not."""

from __future__ import annotations

import pytest

from procgen.lint import check_data
from tests.support import demo_files, load_texts
from tests.whole_check import edited, example_files

TR = "fleet/holds/TR-FWD.yaml"
ONE = "fleet/holds/ONE.yaml"


def rules_of(files: dict[str, str]) -> list[str]:
    loaded = load_texts(files)
    assert loaded.findings == ()
    return [finding.rule for finding in check_data(loaded.network, loaded.documents)]


def demo_edited(file: str, *changes: tuple[str, str]) -> dict[str, str]:
    files = demo_files()
    for find, put in changes:
        files = edited(files, file, find, put)
    return dict(files)


def example_edited(file: str, *changes: tuple[str, str]) -> dict[str, str]:
    files = example_files()
    for find, put in changes:
        files = edited(files, file, find, put)
    return dict(files)


def test_a_bay_across_both_rows_is_meant() -> None:
    files = demo_edited(
        TR,
        (
            "bays:                                # outside is known without being named\n",
            "bays:\n"
            "  P1: {x: [8.26 m, 11.50 m], y: [-1.64 m, 1.64 m]}\n"
            "  P2: {x: [11.54 m, 14.84 m], y: [-1.64 m, 1.64 m], door: forward-door}\n",
        ),
        (
            "  - {go: in, through: [outside, 14R, 14L]}\n",
            "  - {go: in, through: [outside, 14R, 14L]}\n"
            "  - {go: in, through: [outside, P2]}\n"
            "  - {go: forward, through: [P2, P1]}\n",
        ),
    )
    assert "bays-overlap" not in rules_of(files)
    assert "lane-jumps" not in rules_of(files)


def test_the_same_bays_in_another_layout_are_not() -> None:
    files = demo_edited(
        TR,
        (
            "bays:                                # outside is known without being named\n",
            "bays:\n  12X: {x: [9.96 m, 11.56 m], y: [0.04 m, 1.64 m]}\n",
        ),
    )
    assert "bays-overlap" in rules_of(files)


@pytest.mark.parametrize("side", ["left", "right"])
def test_lanes_aft_of_the_door_and_doors_on_either_side(side: str) -> None:
    """The small hold with a second bay aft of its doorway, its restraints turned to the other side."""
    other = "right" if side == "left" else "left"
    files = dict(example_files())
    text = files["fleet/holds/TWO.yaml"]
    for find, put in (
        ("x: [20.00 m, 21.70 m]", "x: [20.00 m, 23.40 m]"),
        ("side: left", f"side: {side}"),
        ("rating: {left: 20 kN}", f"rating: {{{side}: 20 kN}}"),
        (
            "rating: {forward: 30 kN, aft: 30 kN, right: 30 kN, up: 30 kN}",
            f"rating: {{forward: 30 kN, {other}: 30 kN, up: 30 kN}}",
        ),
        ("bays:\n", 'bays:\n  "32": {x: [21.70 m, 23.26 m], y: [-0.80 m, 0.80 m], position: true}\n'),
        (
            '  - {go: in, through: [outside, "31"]}\n',
            '  - {go: in, through: [outside, "31"]}\n  - {go: aft, through: ["31", "32"]}\n',
        ),
        (
            "  frame:\n",
            '  lock-32:\n    name: lock 32\n    kind: lock\n    between: ["31", "32"]\n'
            "    stops: [forward, aft]\n    moved-by: hand\n    reached-from: inside\n    at-rest: lowered\n"
            "    rating: {forward: 30 kN, aft: 30 kN}\n    source: WB 4-6\n"
            '  cage:\n    name: cage\n    kind: rail\n    beside: ["32"]\n    fixed: true\n'
            "    rating: {aft: 30 kN, left: 30 kN, right: 30 kN, up: 30 kN}\n    source: WB 4-6\n"
            "  frame:\n",
        ),
        (
            '  "31": {held-by: [door-lock, side-latch, frame]',
            '  "32": {held-by: [lock-32, cage], max: {K: 900 kg}, contours: [H], source: WB 5-3}\n'
            '  "31": {held-by: [door-lock, side-latch, frame, lock-32]',
        ),
    ):
        assert text.count(find) == 1, find
        text = text.replace(find, put)
    files["fleet/holds/TWO.yaml"] = text
    assert rules_of(files) == []


def test_a_second_door_on_the_other_side() -> None:
    """With doors on both sides, `in` has no one side; the rules then do not guess."""
    files = demo_edited(
        TR,
        (
            "doors:\n",
            "doors:\n"
            "  left-door:\n    name: left cargo door\n    side: left\n    x: [13.16 m, 14.92 m]\n"
            "    clear: {width: 1.72 m, height: 1.66 m}\n    sill: 2.60 m\n"
            "    wind: {opening: 40 kt, open: 60 kt, source: WB 2-1}\n",
        ),
        (
            "14L: {x: [13.24 m, 14.84 m], y: [-1.64 m, -0.04 m], position: true}",
            "14L: {x: [13.24 m, 14.84 m], y: [-1.64 m, -0.04 m], position: true, door: left-door}",
        ),
    )
    assert rules_of(files) == []


def test_rules_of_things_unused_wait_until_every_file_could_be_read() -> None:
    """A hold that cannot be read leaves its aircraft without a hold: no mistake of the aircraft."""
    files = {file: text for file, text in demo_files().items() if "MX-AFT" not in file and "BK-" not in file}
    files[TR] = files[TR].replace("hold: TR-FWD", "hold: [TR-FWD")
    loaded = load_texts(files)
    assert "TR-FWD" not in loaded.network.holds
    assert check_data(loaded.network, loaded.documents) == ()
    assert {finding.rule for finding in check_data(loaded.network)} == {
        "unit-type-fits-nowhere",
        "fleet-entry-unused",
    }


def test_where_every_position_is_above_the_running_load_that_is_named() -> None:
    loaded = load_texts(example_edited(ONE, ("value: 700 kg/m", "value: 70 kg/m")))
    (finding,) = check_data(loaded.network, loaded.documents)
    assert finding.rule == "limit-above-running-load"
    assert finding.place.route == ("floor", "limits", "running", "value")
    assert len(finding.related) == 3


def test_pounds_and_kilograms_compare_exactly() -> None:
    """1588 kg is above 3500 lb (1587.57 kg): international pound, 0.453 592 37 kg."""
    heavier = demo_edited("fleet/fleet.yaml", ("max-gross: 1588 kg", "max-gross: 3500 lb"))
    loaded = load_texts(heavier)
    findings = check_data(loaded.network, loaded.documents)
    assert {finding.rule for finding in findings} == {"limit-above-unit-maximum"}
    finding = findings[-1]
    assert "3500 lb" in finding.message
    assert rules_of(demo_edited("fleet/fleet.yaml", ("max-gross: 1588 kg", "max-gross: 3501 lb"))) == []
