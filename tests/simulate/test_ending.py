"""How a hold is left. Common practice of the trade, no source."""

from __future__ import annotations

import pytest

from tests.simulate.bench import bench
from tests.simulate.kinds import SECT_IN, SECT_OUT
from tests.simulate.procedures import ROW_IN, ROW_OUT, TWIN_IN
from tests.simulate.slips import CLOSE_DOOR, CLOSE_PANEL, LAST_LOOK, LOOK, POWER_OFF


def rules(text: str, *edits: tuple[str, str], hold: tuple[tuple[str, str], ...] = ()) -> list[str]:
    return [finding.rule for finding in bench(text, *edits, hold=hold).run().findings]


def test_somebody_is_left_inside_where_the_door_is_not_closed() -> None:
    last = ("  - check: everyone-out\n", "  - raise: lock-42\n  - lower: lock-42 # again\n")
    assert rules(ROW_OUT, last, (CLOSE_DOOR + LOOK + LAST_LOOK, "")) == [
        "door-left-open",
        "person-left-inside",
    ]


def test_everything_left_as_it_was_is_told_in_one_go() -> None:
    stop = ROW_IN[ROW_IN.index("  - check: everyone-out") :]
    assert rules(ROW_IN, (stop, "")) == [
        "restraint-left-down",  # the sill lock, which holds 44 too
        "switch-left-on",
        "panel-left-open",
        "door-left-open",
    ]


def test_the_findings_of_the_end_come_last_and_in_one_order() -> None:
    trace = bench(ROW_IN, ("  - raise: lock-42\n", ""), (POWER_OFF, ""), (CLOSE_PANEL, "")).run()
    assert [finding.message.split()[0] for finding in trace.findings] == ["step", "step", "at"]
    assert trace.findings[:2] == tuple(f for traced in trace.steps for f in traced.findings)


def test_a_lock_between_two_loaded_bays_is_one_finding() -> None:
    stuck_open = ("  - raise: aft-sill-lock\n", "")
    told = bench(TWIN_IN, stuck_open).run().findings
    assert [finding.rule for finding in told] == ["door-closed-too-early"]


def test_a_vacant_bay_follows_its_own_rule() -> None:
    either = (
        (
            "reached-from: outside\n    returns: spring",
            "reached-from: outside\n    when-vacant: either\n    returns: spring",
        ),
    )
    left = ("  - raise: inner-guide\n", "")
    assert rules(ROW_OUT, left) == ["restraint-left-wrong"]
    assert rules(ROW_OUT, left, hold=either) == []


NET_51 = "reached-from: inside, at-rest: lowered, when-vacant: either, grips: true"
VACANT: dict[str, tuple[str, str, dict[bool, list[str]]]] = {
    # The item, what the description says of it, what is found where it is left up or not.
    "stops up": ("inner-guide", "raised", {True: [], False: ["restraint-left-wrong"]}),
    "guide down": ("inner-guide", "lowered", {True: ["restraint-left-wrong"], False: []}),
    "as it comes": ("inner-guide", "either", {True: [], False: []}),
}


@pytest.mark.parametrize("name", VACANT)
@pytest.mark.parametrize("left_up", [True, False])
def test_a_vacant_bay_is_left_as_the_hold_says(name: str, left_up: bool) -> None:
    """Stops up, guides or locks down or either: the description says it, and nothing else decides."""
    item, says, expected = VACANT[name]
    hold = (
        (
            "reached-from: outside\n    returns: spring",
            f"reached-from: outside\n    when-vacant: {says}\n    returns: spring",
        ),
    )
    edits = () if left_up else ((f"  - raise: {item}\n", ""),)
    assert rules(ROW_OUT, *edits, hold=hold) == expected[left_up]


def test_a_lock_that_stands_up_in_a_vacant_bay_is_raised_though_no_unit_was_there() -> None:
    up = ((NET_51, NET_51.replace("either", "raised")),)
    assert rules(SECT_OUT, hold=up) == ["restraint-left-wrong"]
    fitted = ("  - check: everyone-out\n", "  - fit: net-51\n  - check: everyone-out\n")
    assert rules(SECT_OUT, fitted, hold=up) == []


def test_what_holds_a_loaded_bay_is_up_whatever_vacant_bays_ask_for() -> None:
    """A net between a loaded and a vacant section: the load decides."""
    down = ((NET_51, NET_51.replace("either", "lowered")),)
    assert rules(SECT_IN, hold=down) == []
    only = SECT_IN.replace('  u52: {type: TLP, bay: "52"}\n  u50: {type: TLP, bay: "50"}\n', "")
    only = "".join(line for line in only.splitlines(True) if "u52" not in line and "u50" not in line)
    only = only.replace("  - fit: net-52\n", "").replace("  - remove: net-52\n", "")
    assert rules(only, hold=down) == []
    assert rules(only, ("  - fit: net-51\n", ""), hold=down) == ["restraint-left-down"]
