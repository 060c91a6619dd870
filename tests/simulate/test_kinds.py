"""Two doors, pallets over containers, loose loads by hand. Common practice of the trade, no source."""

from __future__ import annotations

from procgen.model.words import RestraintState
from procgen.results.state import state_at_rest, stood_over
from procgen.simulate.scene import scene_of
from tests.simulate.bench import bench, found
from tests.simulate.kinds import MIX_IN, MIX_OUT, SECT_IN, SECT_OUT
from tests.simulate.procedures import ROW_IN, ROW_OUT, YARD_IN
from tests.simulate.slips import HAND_MOVES, U42_IN

UP, DOWN = RestraintState.RAISED, RestraintState.LOWERED


def test_a_unit_outside_stands_at_the_door_it_was_brought_to() -> None:
    steps = bench(YARD_IN).run().steps
    assert steps[4].after.at_door == {"uL": "front-door"}
    assert steps[6].after.at_door == {}


def test_a_unit_that_leaves_stands_at_the_door_of_the_bay_it_left() -> None:
    assert bench(SECT_OUT).run().final.at_door == {"u50": "bulk-door", "u51": "bulk-door"}


def test_a_hold_with_one_door_need_not_name_it() -> None:
    named = ("present: uP", "present: {unit: uP, door: side-door}")
    assert found(bench(MIX_IN, named).run()) == []
    assert bench(MIX_IN).run().steps[4].after.at_door == {"uP": "side-door"}


def test_whoever_stows_is_inside_and_may_be_in_the_way() -> None:
    stowed = bench(SECT_IN).run().steps[4].after
    assert stowed.inside
    assert not stowed.path_clear


def test_pieces_push_nothing_down() -> None:
    """What a unit overrides stops those who carry: they would climb over it with full arms."""
    gives_way = (
        'between: ["50", "52"], stops: [forward, aft], moved-by',
        'between: ["50", "52"], stops: [forward, aft], override: [aft], moved-by',
    )
    told = bench(SECT_IN, ("  - remove: net-52\n", ""), hold=(gives_way,)).run().findings
    assert [finding.rule for finding in told] == ["move-through-raised-restraint"]
    assert told[0].message == "step 7 stows u52 aft from 50 to 52 while net 52 is fitted"
    assert told[0].suggestion == "remove net 52 before this step"


def test_a_pallet_meets_the_locks_of_the_bays_it_covers() -> None:
    scene = scene_of(bench(MIX_IN).hold, {}, bench(MIX_IN).procedure)
    assert scene.crossing["2P", "1P"] == ("centre-1", "centre-2", "lock-R", "lock-L")
    assert scene.crossing["2R", "1R"] == ("lock-R",)
    assert scene.crossing["outside", "2P"] == ("sill-lock", "edge-stop", "centre-2")
    assert scene.crossing["2R", "2L"] == ("centre-2",)


def test_what_stands_on_the_sill_of_another_door_is_not_met() -> None:
    """Two doors on two sides, one bay across: each has its own sill."""
    left = (
        "bays:\n",
        "  left-door:\n    {name: left door, side: left, x: [11.70 m, 13.40 m], clear: {width: 1.70 m,"
        " height: 1.28 m},\n     sill: 1.50 m, wind: {opening: 40 kt, open: 60 kt, source: WB 2}}\nbays:\n",
    )
    far = (
        "2L: {x: [11.75 m, 13.40 m], y: [-1.65 m, -0.05 m], position: true}",
        "2L: {x: [11.75 m, 13.40 m], y: [-1.65 m, -0.05 m], position: true, door: left-door}",
    )
    lane = ("lanes:\n", "lanes:\n  - {go: in, through: [outside, 2L]}\n")
    run = bench(MIX_IN, hold=(left, far, lane))
    scene = scene_of(run.hold, {}, run.procedure)
    assert scene.crossing["outside", "2L"] == ()
    assert scene.crossing["outside", "2P"] == ("sill-lock", "edge-stop", "centre-2")


def test_what_a_pallet_stands_over_is_down_from_the_start() -> None:
    """A spring only presses against the pallet from below; what has none was laid down before."""
    hold = bench(MIX_OUT).hold
    state = state_at_rest(hold, {"uA": "1P", "uB": "2P"})
    assert (state.restraints["centre-1"], state.restraints["centre-2"]) == (DOWN, UP)
    assert (state.restraints["lock-R"], state.restraints["lock-L"]) == (UP, UP)
    assert state_at_rest(hold, {"uR": "2R"}).restraints["centre-1"] is UP
    assert stood_over(hold, "1P") == ("centre-1",)
    assert stood_over(hold, "2R") == ()
    assert stood_over(hold, "nowhere") == ()


def test_what_a_pallet_stands_over_is_looked_up_alike_in_both_places() -> None:
    for text in (MIX_IN, SECT_IN, YARD_IN):
        hold = bench(text).hold
        scene = scene_of(hold, {}, bench(text).procedure)
        assert dict(scene.beneath) == {bay: stood_over(hold, bay) for bay in hold.bays}


def test_what_lies_under_a_pallet_may_stay_down_at_the_end() -> None:
    trace = bench(MIX_IN).run()
    assert trace.final.restraints["centre-1"] is DOWN
    gone = bench(MIX_OUT, ("  - raise: centre-1\n", "")).run()
    assert [finding.rule for finding in gone.findings] == ["restraint-left-wrong"]


def test_a_lever_may_be_held_for_what_the_pallet_comes_to_stand_over() -> None:
    by_lever = (
        "[1R, 1L], stops: [in, out], moved-by: hand,\n    reached-from: inside,",
        "[1R, 1L], stops: [in, out], lowered-by: {edge-lever: down},\n   ",
    )
    text = MIX_IN.replace("  - lower: centre-1\n", "")
    text = text.replace("stick: forward}", "stick: forward, edge-lever: down}")
    assert found(bench(text, hold=(by_lever,)).run()) == []
    held = bench(text.replace("forward, edge-lever: down}", "forward}"), hold=(by_lever,)).run().findings
    assert [finding.rule for finding in held] == ["unit-over-raised-restraint"]
    assert held[0].suggestion == "hold edge lever to down in this step"


def test_loose_loads_need_no_leave_to_push() -> None:
    assert bench(SECT_IN).hold.hand_moves is None
    assert found(bench(SECT_IN).run()) == []


def test_a_unit_that_came_out_may_be_brought_back_at_any_door() -> None:
    """Set aside on the platform, it is presented again; one that has not moved since is not."""
    back = (
        "  - raise: lock-3\n",
        "  - push: {unit: u3, crew: 3, through: [3R, 2R]}\n"
        "  - push: {unit: u3, crew: 3, hold: {}, through: [2R, outside]}\n"
        "  - present: {unit: u3, door: rear-door} # again\n"
        "  - push: {unit: u3, crew: 3, through: [outside, 2R] }\n"
        "  - push: {unit: u3, crew: 3, through: [2R, 3R] }\n"
        "  - raise: lock-3\n",
    )
    gives = (("stops: [in, out], override: [in],", "stops: [in, out], override: [in, out],"),)
    assert found(bench(YARD_IN, back, hold=gives).run()) == []
    again = bench(
        YARD_IN,
        ("  - present: {unit: u3, door: rear-door}\n", "  - present: {unit: u3, door: rear-door}\n" * 2),
    )
    assert [finding.rule for finding in again.run().findings] == ["unit-presented-twice"]
    moved = ("  - present: {unit: u3, door: rear-door}\n", "  - present: {unit: u3, door: front-door}\n")
    there = bench(YARD_IN, (moved[0], moved[1] + moved[0]))
    assert found(there.run()) == []


def test_an_item_is_reached_from_its_near_side_only() -> None:
    """Lock 42 stands between 43 and 42: from 43 while a unit is in 42, from nowhere with one in 44."""
    again = "  - lower: lock-42\n  - raise: lock-42 # again\n"
    early = ("  - raise: lock-43\n", f"  - raise: lock-43\n{again}")
    assert found(bench(ROW_IN, early).run()) == []
    late = ("  - check: everyone-out\n", f"{again}  - check: everyone-out\n")
    (told,) = bench(ROW_IN, late).run().findings
    assert told.rule == "out-of-reach"
    assert told.message == (
        "step 24 lowers lock 42, which nobody can reach past u41 in 41, u42 in 42 and u44 in 44"
    )
    assert not bench(ROW_IN, late).run().steps[23].after.inside


def test_the_second_door_is_another_way_in() -> None:
    """With a unit in the doorway bay of the one door, whoever comes in at the other walks up from there."""
    aisle = (("3R: {x: [12.60 m, 14.20 m]", "3R: {x: [12.00 m, 14.60 m]"),)
    stays = ("  - push: {unit: u3, crew: 3, through: [2R, 3R]}\n", "")
    at_door = ("u3: {type: AKH, bay: 3R}", "u3: {type: AKH, bay: 2R}")
    assert found(bench(YARD_IN, stays, at_door, hold=aisle).run()) == []
    assert [f.rule for f in bench(YARD_IN, stays, at_door).run().findings] == ["out-of-reach"]


def test_what_is_put_back_may_be_moved_and_must_be_back() -> None:
    aboard = (
        '  u41: {type: AKH, bay: "41"}\nsteps:',
        'aboard:\n  u41: {type: AKH, bay: "41"}\nput-back: [u41]\nsteps:',
    )
    (told,) = bench(ROW_OUT, aboard).run().findings
    assert (told.rule, dict(told.subject)["unit"]) == ("unit-not-in-its-bay", "u41")
    back = (
        "  - raise: inner-guide\n",
        "  - raise: inner-guide\n  - present: u41\n  - check: path-clear # back\n"
        '  - drive: {unit: u41, hold: {stick: in}, through: [outside, "44"]}\n'
        "  - drive: {unit: u41, hold: {stick: forward, guide-switch: forward},"
        ' through: ["44", "43", "42", "41"]}\n  - raise: lock-41\n',
    )
    assert found(bench(ROW_OUT, aboard, back).run()) == []


def test_those_who_push_are_inside_until_the_path_is_looked_along_again() -> None:
    """They may push their own unit on; nothing else moves, and no door closes on them."""
    pushed = bench(YARD_IN).run().steps
    assert pushed[6].after.inside
    assert pushed[13].findings == ()  # the second push of one unit, without another look
    leave = (("restraints:\n", HAND_MOVES + "restraints:\n"),)
    push = U42_IN.replace("drive:", "push:").replace("u42, hold: {stick: in}", "u42, crew: 3")
    (told,) = bench(ROW_IN, (U42_IN, push), hold=leave).run().findings
    assert told.rule == "person-in-the-way"
    assert told.message == "step 17 drives u42 while somebody may be in the hold, since step 16"
    looked = push + "  - check: path-clear # again\n"
    assert found(bench(ROW_IN, (U42_IN, looked), hold=leave).run()) == []
    out = bench(YARD_IN, ("  - check: everyone-out\n", "")).run().findings
    assert [finding.rule for finding in out] == ["person-shut-in"]


BESIDE = (
    "centre-1: {name: centre guide 1, kind: guide, between: [1R, 1L]",
    "centre-1: {name: centre guide 1, kind: guide, beside: [1R, 1L]",
)


def test_what_is_movable_and_beside_two_bays_abreast_lies_flat_under_a_pallet() -> None:
    hold = bench(MIX_OUT, hold=(BESIDE,)).hold
    assert stood_over(hold, "1P") == ("centre-1",)
    assert stood_over(hold, "1R") == ()
    scene = scene_of(hold, {}, bench(MIX_OUT).procedure)
    assert dict(scene.beneath) == {bay: stood_over(hold, bay) for bay in hold.bays}
    assert state_at_rest(hold, {"uA": "1P"}).restraints["centre-1"] is DOWN
    trace = bench(MIX_IN, hold=(BESIDE,)).run()
    assert found(trace) == []
    assert trace.final.restraints["centre-1"] is DOWN


def test_a_pallet_does_not_come_to_stand_over_what_is_up_beside_two_bays() -> None:
    told = bench(MIX_IN, ("  - lower: centre-1\n", ""), hold=(BESIDE,)).run().findings
    assert [finding.rule for finding in told] == ["unit-over-raised-restraint"]
    assert told[0].related[0].message == "centre guide 1 (centre-1) stands between 1R and 1L, which 1P covers"
