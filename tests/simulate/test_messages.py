"""What findings say, in a writer's words. Common practice of the trade, no source."""

from __future__ import annotations

from procgen.diagnostics import Finding
from tests.simulate.bench import bench
from tests.simulate.procedures import ROW_IN, ROW_OUT, TWIN_OUT, YARD_IN
from tests.simulate.slips import LOCK_41_FROM_OUTSIDE, U42_ALONG, U42_IN, U44_OUT


def only(text: str, *edits: tuple[str, str]) -> Finding:
    (finding,) = bench(text, *edits).run().findings
    return finding


def test_a_raised_lock_is_named_with_the_move_and_the_way_out() -> None:
    finding = only(ROW_OUT, ("  - lower: lock-43\n", ""))
    assert finding.message == "step 10 drives u41 aft from 43 to 44 while lock 43 is up"
    assert finding.suggestion == "lower lock 43 before this step"
    assert finding.subject == (("step", "10"), ("item", "lock-43"), ("bay", "44"))
    (related,) = finding.related
    assert related.place.file == "fleet/holds/SR-AFT.yaml"
    assert related.place.route == ("restraints", "lock-43")
    assert related.message == "lock 43 stops travel aft or forward between 43 and 44"


def test_a_forgotten_control_is_named_for_all_it_lowers() -> None:
    find = "u14R, hold: {door-stick: out, sill-handle: down}"
    finding = only(TWIN_OUT, (find, "u14R, hold: {door-stick: out}"))
    assert finding.message == (
        "step 9 drives u14R out from 14R to outside while forward sill stop and aft sill stop are up"
    )
    assert finding.suggestion == "hold sill stop handle (sill-handle) to down in this step"


def test_a_control_for_the_other_direction_is_answered_with_the_right_one() -> None:
    finding = only(ROW_IN, (U42_ALONG, U42_ALONG.replace("{stick: forward", "{stick: aft")))
    assert finding.message == (
        "step 17 holds drive stick (stick) to aft, which runs lane drive aft, but u42 goes forward"
    )
    assert finding.suggestion == "hold drive stick (stick) to forward"


def test_a_person_is_named_with_the_step_that_took_them_in() -> None:
    finding = only(ROW_IN, ("  - check: path-clear # for u42\n", ""))
    assert finding.message == "step 15 drives u42 while somebody may be in the hold, since step 13"


def test_a_near_name_is_offered() -> None:
    assert only(ROW_IN, ("raise: lock-41", "raise: lock-14")).suggestion == "did you mean lock-41?"
    far = only(ROW_IN, ("raise: lock-41", "raise: catch"))
    assert far.suggestion == "name one of sill-lock, inner-guide, lock-43, lock-42 and lock-41"


def test_a_net_is_fitted_and_removed() -> None:
    finding = only(YARD_IN, ("  - remove: rear-net\n", ""))
    assert finding.message == "step 12 pushes u3 in from outside to 2R while rear net is fitted"
    assert finding.suggestion == "remove rear net before this step"


def test_a_unit_left_on_its_way_is_told_with_what_holds_it_not() -> None:
    edit = ('"44", "43", "42", "41"]', '"44", "43"]')
    (finding,) = bench(ROW_IN, edit, hold=(LOCK_41_FROM_OUTSIDE,)).run().findings
    assert finding.message == (
        "step 16 drives u42 while u41 stands in 43 on its way, where lock 42 and lock 43 are down"
    )
    assert finding.suggestion == "move u41 on before this step (its bay is 41)"


def test_power_off_says_why() -> None:
    finding = only(ROW_IN, (U42_IN, "  - raise: sill-lock # too soon\n" + U42_IN))
    assert finding.message == (
        "step 17 drives u42 in while power is off: door sill lock (sill-lock) is up, which keeps it off"
    )


def test_crew_is_told_in_full() -> None:
    finding = only(YARD_IN, ("crew: 3, through: [2R, 3R]", "crew: 2, through: [2R, 3R]"))
    assert finding.message == (
        "step 14 pushes u3 with a crew of 2, but AKH at its maximum of 1134 kg takes 3"
    )
    assert finding.suggestion == "write crew: 3"


def test_an_end_finding_points_at_the_step_to_go_on_from() -> None:
    finding = only(ROW_OUT, ("  - raise: inner-guide\n", ""))
    assert finding.message == "at the end inner guide is down, and it holds no unit"
    assert finding.suggestion == "raise inner guide after this step"
    assert ("step", "5") in finding.subject


def test_a_misnamed_unit_is_answered_with_the_one_that_is_there() -> None:
    finding = only(ROW_IN, (U42_IN, U42_IN.replace("u42", "u44")))
    assert finding.rule == "unit-not-presented"
    assert finding.suggestion == "present u44 before this step, or name u42, which is there"


def test_the_same_slip_in_two_places_is_found_twice() -> None:
    edits = (
        (U44_OUT, U44_OUT.replace("stick: out", "stick: in")),
        ("41, hold: {stick: aft", "41, hold: {stick: forward"),
    )
    text = ROW_OUT
    trace = bench(text, *edits).run()
    assert [finding.rule for finding in trace.findings] == ["wrong-control-held"] * 2
