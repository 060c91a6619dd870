"""How a hold is left. Common practice of the trade, no source."""

from __future__ import annotations

from tests.simulate.bench import bench
from tests.simulate.procedures import ROW_IN, ROW_OUT, TWIN_IN
from tests.simulate.slips import CLOSE_DOOR, CLOSE_PANEL, POWER_OFF


def rules(text: str, *edits: tuple[str, str], hold: tuple[tuple[str, str], ...] = ()) -> list[str]:
    return [finding.rule for finding in bench(text, *edits, hold=hold).run().findings]


def test_somebody_is_left_inside_where_the_door_is_not_closed() -> None:
    last = ("  - check: everyone-out\n", "  - lower: lock-42\n  - raise: lock-42 # again\n")
    assert rules(ROW_IN, last, (CLOSE_DOOR, "")) == ["door-left-open", "person-left-inside"]


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
