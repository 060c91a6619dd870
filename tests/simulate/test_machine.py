"""What steps mean: the traps of the machine. Common practice of the trade, no source, unless a test says."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from procgen.model.step import Drive, Push
from procgen.model.words import RestraintState
from procgen.results.state import State
from procgen.results.trace import TracedStep
from procgen.simulate.pushing import crew_for
from procgen.simulate.scene import scene_of
from tests.simulate.bench import Bench, bench, found
from tests.simulate.procedures import ROW_IN, ROW_OUT, TWIN_IN, TWIN_OUT, YARD_HOLD, YARD_IN
from tests.simulate.slips import HAND_MOVES, LOCK_41_FROM_OUTSIDE, U41_AFT, U41_ALONG, U42_ALONG, U44_IN

UP, DOWN = RestraintState.RAISED, RestraintState.LOWERED


def closed(state: State) -> bool:
    """Whether doors and panels are closed and nobody is inside."""
    return not (state.open_doors or state.open_panels or state.inside)


def moves(run: Bench, unit: str) -> list[TracedStep]:
    return [
        traced
        for traced in run.run().steps
        if isinstance(traced.step, Drive | Push) and traced.step.unit == unit
    ]


def test_the_clean_procedure_starts_closed_and_at_rest_and_ends_so() -> None:
    trace = bench(ROW_IN).run()
    start = trace.steps[0].before
    assert closed(start)
    assert start.units == {}
    assert trace.final.units == {"u41": "41", "u42": "42", "u44": "44"}
    assert closed(trace.final)
    assert trace.final.controls == start.controls


def test_unloading_starts_with_the_units_secured_in_their_bays() -> None:
    start = bench(ROW_OUT).run().steps[0].before
    assert start.units == {"u44": "44", "u41": "41"}
    assert {name for name, state in start.restraints.items() if state is DOWN} == {"lock-42"}


def test_units_that_stay_aboard_are_there_from_the_start() -> None:
    run = bench(
        ROW_OUT,
        ('  u41: {type: AKH, bay: "41"}\n', 'aboard:\n  u41: {type: AKH, bay: "41"}\n'),
        ("  - lower: lock-41\n", ""),
        ("  - check: path-clear # for u41\n", ""),
        (U41_AFT, ""),
        (
            U41_AFT.replace("aft", "out, sill-handle: down").replace(
                '"41", "42", "43", "44"', '"44", outside'
            ),
            "",
        ),
    )
    trace = run.run()
    assert trace.findings == ()
    assert trace.final.units == {"u44": "outside", "u41": "41"}


def test_a_stop_is_pushed_down_on_the_way_in_and_springs_back() -> None:
    (into, _) = moves(bench(ROW_IN), "u41")
    assert into.passed == ("sill-stop", "inner-guide")
    assert into.after.restraints["sill-stop"] is UP
    assert into.after.restraints["inner-guide"] is UP


def test_a_stop_is_held_down_on_the_way_out_and_comes_up_again() -> None:
    (out,) = moves(bench(ROW_OUT), "u44")
    assert out.passed == ("sill-stop",)
    assert out.after.restraints["sill-stop"] is UP
    assert out.after.restraints["inner-guide"] is DOWN, "lowered by hand, it stays down"


def test_a_guide_is_overridden_aft_without_its_switch() -> None:
    (aft, _) = moves(bench(ROW_OUT), "u41")
    assert aft.passed == ("side-guide",)
    assert aft.after.restraints["side-guide"] is UP


def test_what_has_no_spring_stays_down_until_raised_by_hand() -> None:
    no_spring = "stops: [in, out]\n    override: [in]\n    moved-by: hand"
    hold = (
        (
            f"{no_spring}\n    reached-from: outside\n    returns: spring",
            f"{no_spring}\n    reached-from: outside",
        ),
    )
    run = bench(ROW_IN, hold=hold)
    (into, _) = moves(run, "u41")
    assert into.after.restraints["inner-guide"] is DOWN
    trace = run.run()
    assert [finding.rule for finding in trace.findings] == ["restraint-left-down"]
    assert dict(trace.findings[0].subject)["item"] == "inner-guide"
    raised = ("  - check: everyone-out\n", "  - raise: inner-guide\n  - check: everyone-out\n")
    assert bench(ROW_IN, raised, hold=hold).run().findings == ()


def test_a_powered_guide_goes_down_only_with_power() -> None:
    by_hand = (
        U42_ALONG.replace("drive:", "push:").replace("stick: forward, ", "").replace("u42,", "u42, crew: 3,")
    )
    hold = (("restraints:\n", HAND_MOVES + "restraints:\n"),)
    assert bench(ROW_IN, (U42_ALONG, by_hand), hold=hold).run().findings == ()
    cut = '  - set: {power-switch: "off"} # for the push\n'
    back = '  - set: {power-switch: "on"} # again\n'
    off = bench(ROW_IN, (U42_ALONG, cut + by_hand + back), hold=hold).run()
    assert [finding.rule for finding in off.findings] == ["move-through-raised-restraint"]
    unpowered = (("    powered: true\n", ""), *hold)
    assert bench(ROW_IN, (U42_ALONG, cut + by_hand + back), hold=unpowered).run().findings == ()


def test_raising_a_sill_lock_cuts_power_and_is_allowed_unless_the_hold_forbids_it() -> None:
    raised = '  - raise: sill-lock\n  - set: {power-switch: "off"}\n'
    assert raised in ROW_IN
    assert bench(ROW_IN).run().findings == ()
    forbids = (
        "needs: {sill-lock: lowered}",
        "interlock-moves-while-on: false\n  needs: {sill-lock: lowered}",
    )
    first_off = '  - set: {power-switch: "off"}\n  - raise: sill-lock\n'
    assert bench(ROW_IN, (raised, first_off), hold=(forbids,)).run().findings == ()


def test_a_sill_lock_that_was_up_for_a_while_does_no_harm() -> None:
    up_and_down = "  - raise: sill-lock # for the talk\n  - lower: sill-lock # on again\n"
    assert bench(ROW_IN, ("  - present: u42\n", up_and_down + "  - present: u42\n")).run().findings == ()


def test_a_guide_held_down_by_a_control_does_not_guide() -> None:
    hold = (('guides: [[outside, "44"]]', 'guides: [[outside, "44"], ["44", "43"]]'),)
    trace = bench(ROW_IN, hold=hold).run()
    assert {finding.rule for finding in trace.findings} == {"move-with-guide-down"}
    assert "is held down" in trace.findings[0].message


def test_every_unit_needs_its_own_look_along_the_path() -> None:
    checked = "  - check: path-clear # for u44\n"
    trace = bench(ROW_IN, (checked, ""), ("  - raise: lock-43\n", "")).run()
    assert [finding.rule for finding in trace.findings] == ["person-in-the-way", "restraint-left-down"]
    early = ("  - raise: lock-42\n  - raise: lock-43\n", "")
    trace = bench(ROW_IN, early, (checked, "")).run()
    assert "path-not-confirmed" in [finding.rule for finding in trace.findings]
    message = next(f.message for f in trace.findings if f.rule == "path-not-confirmed")
    assert message.endswith("the path was last confirmed clear for u42")


def test_units_outside_block_nothing() -> None:
    together = ("  - present: u41\n", "  - present: u41\n  - present: u42 # too\n")
    trace = bench(ROW_IN, together, ("  - present: u42\n", "")).run()
    assert trace.findings == ()


def test_an_item_on_the_own_way_may_be_down_while_its_other_unit_waits() -> None:
    """Unloading 42 behind 43: lock 42 is between them, and down for the move it is part of."""
    text = ROW_OUT.replace('u44: {type: AKH, bay: "44"}', 'u42: {type: AKH, bay: "42"}')
    text = text.replace(
        '  - drive: {unit: u44, hold: {stick: out, sill-handle: down}, through: ["44", outside]}\n',
        '  - drive: {unit: u42, hold: {stick: aft}, through: ["42", "43", "44"]}\n'
        '  - drive: {unit: u42, hold: {stick: out, sill-handle: down}, through: ["44", outside]}\n',
    )
    text = text.replace("  - lower: lock-43\n", "").replace(
        "  - check: path-clear # for u44\n", "  - lower: lock-42\n  - check: path-clear # for u44\n"
    )
    assert found(bench(text).run()) == []
    trace = bench(
        text,
        ("  - lower: lock-42\n", "  - lower: lock-42\n  - lower: lock-41 # early\n"),
        ("  - lower: lock-41\n", ""),
        hold=(LOCK_41_FROM_OUTSIDE,),
    ).run()
    assert [finding.rule for finding in trace.findings] == ["released-early"]


def test_bays_that_share_floor_exclude_one_another() -> None:
    """A wide bay over a narrow one: computed from the rectangles, typed nowhere."""
    wide = ("  uL: {type: AKH, bay: 1L}\n", "  uL: {type: AKH, bay: 1L}\n  uW: {type: AKH, bay: 2W}\n")
    push = (
        "  - present: {unit: u3, door: rear-door}\n",
        "  - present: {unit: uW, door: rear-door}\n  - check: path-clear\n"
        "  - push: {unit: uW, crew: 3, through: [outside, 2W]}\n  - present: {unit: u3, door: rear-door}\n",
    )
    trace = bench(YARD_IN, wide, push).run()
    (told,) = trace.findings
    assert told.rule == "bay-occupied"
    assert told.message == (
        "step 16 pushes u3 in from outside to 2R, but uW stands in 2W, which shares floor with 2R"
    )


def test_units_aboard_that_share_floor_are_found_at_the_start() -> None:
    text = YARD_IN.replace(
        "steps:", "aboard:\n  uR: {type: AKH, bay: 2R}\n  uW: {type: AKH, bay: 2W}\nsteps:"
    )
    trace = bench(text).run()
    assert trace.findings[0].rule == "bay-occupied"
    assert trace.findings[0].message == "at the start uW stands in 2W and uR in 2R, which share floor"


def test_the_way_in_the_twin_row_goes_sideways_through_two_bays() -> None:
    (into,) = moves(bench(TWIN_IN), "u14L")
    assert into.passed == ("forward-sill-stop", "aft-sill-stop", "centre-guide")
    (out,) = moves(bench(TWIN_OUT), "u14L")
    assert out.passed == ("forward-sill-stop", "aft-sill-stop")


def test_a_hold_that_forbids_pushing_is_told_once() -> None:
    hold = (("hand-moves:\n" + YARD_HOLD.split("hand-moves:\n")[1].split("restraints:")[0], ""),)
    trace = bench(YARD_IN, hold=hold).run()
    assert [finding.rule for finding in trace.findings] == ["hand-move-forbidden"]


def test_a_unit_that_is_too_heavy_to_push_is_told_once_for_each() -> None:
    trace = bench(YARD_IN, hold=(("max-mass: 1200 kg", "max-mass: 1133 kg"),)).run()
    assert [(f.rule, dict(f.subject)["unit"]) for f in trace.findings] == [
        ("hand-move-forbidden", "uL"),
        ("hand-move-forbidden", "u3"),
    ]
    assert bench(YARD_IN, hold=(("max-mass: 1200 kg", "max-mass: 1134 kg"),)).run().findings == ()


@pytest.mark.parametrize(
    ("mass", "crew"),
    [
        # Starting: 4 % x m x 9.80665 / 200 N; moving: 3 % x m x 9.80665 / 150 N: both m / 509.86 kg.
        # Worked by hand from limits.md section 7 (cos taken as 1, sin as tan: conservative).
        (1, 2),
        (1019, 2),
        (1020, 3),
        (1134, 3),
        (1529, 3),
        (1530, 4),
    ],
)
def test_crew_is_force_over_force_per_person_rounded_up(mass: int, crew: int) -> None:
    moves = bench(YARD_IN).hold.hand_moves
    assert moves is not None
    assert crew_for(moves, Fraction(mass)) == crew


def test_the_larger_of_starting_and_moving_counts() -> None:
    moves = bench(YARD_IN).hold.hand_moves
    assert moves is not None
    easier = replace(
        moves, force_starting=replace(moves.force_starting, quantity=moves.force_starting.quantity.to("lbf"))
    )
    assert crew_for(easier, Fraction(1530)) == 4
    weak = replace(moves, force_moving=moves.slope)  # a hundredth of a newton for each person
    assert crew_for(weak, Fraction(1)) == 30


def test_a_push_may_run_no_drive() -> None:
    push = U44_IN.replace("drive:", "push:").replace("u44,", "u44, crew: 3,")
    hold = (("restraints:\n", HAND_MOVES + "restraints:\n"),)
    trace = bench(ROW_IN, (U44_IN, push), hold=hold).run()
    assert [finding.rule for finding in trace.findings] == ["wrong-control-held"]
    assert "while u44 is pushed by hand" in trace.findings[0].message
    assert bench(ROW_IN, (U44_IN, push.replace("hold: {stick: in}, ", "")), hold=hold).run().findings == ()


def test_a_control_inside_puts_a_person_inside() -> None:
    trace = bench(YARD_IN).run()
    lamp = trace.steps[2]
    assert lamp.after.inside
    assert trace.steps[5].after.path_clear
    assert not trace.steps[5].after.inside


def test_two_restraints_in_the_way_are_two_slips() -> None:
    both = (
        "  - raise: lock-41\n",
        "  - raise: lock-41\n  - raise: lock-42 # early\n  - raise: lock-43 # early\n",
    )
    trace = bench(ROW_IN, both, ("  - raise: lock-42\n  - raise: lock-43\n", "")).run()
    assert [dict(finding.subject)["item"] for finding in trace.findings] == ["lock-43", "lock-42"]
    assert {finding.rule for finding in trace.findings} == {"move-through-raised-restraint"}


def test_the_step_after_a_slip_is_still_checked() -> None:
    """One finding does not hide the next slip."""
    edits = (
        (U41_ALONG, U41_ALONG.replace(", guide-switch: forward", "")),
        ("  - check: path-clear # for u42\n", ""),
        ("  - raise: lock-42\n", ""),
        ("  - close: control-panel\n", ""),
    )
    assert [finding.rule for finding in bench(ROW_IN, *edits).run().findings] == [
        "move-through-raised-restraint",
        "person-in-the-way",
        "released-early",
        "door-closed-too-early",
    ]


@pytest.mark.parametrize("text", [ROW_IN, TWIN_IN, YARD_IN])
def test_bays_share_floor_as_the_description_says(text: str) -> None:
    hold = bench(text).hold
    scene = scene_of(hold, {}, bench(text).procedure)
    assert scene.sharing == {bay: hold.overlapping(bay) | {bay} for bay in hold.bays}
