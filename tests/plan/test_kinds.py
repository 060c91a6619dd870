"""Holds of other kinds than the demo's, made from it by a few words: each kind of item in its own way.

Unless a test says otherwise, what it expects is common practice of the trade, no source.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from procgen.model.hold import Hold
from procgen.model.step import (
    Check,
    CheckLatch,
    Close,
    Drive,
    Fit,
    Lower,
    Open,
    PlannedUnit,
    Push,
    Raise,
    Remove,
    SetControl,
)
from procgen.model.unit import UnitType
from procgen.model.words import Looker, Operation
from procgen.plan import choose_units, plan
from procgen.plan.crew import crew
from procgen.results.plan import NoPlan, Plan
from procgen.results.state import state_at_rest
from tests.plan.planning import (
    UnitTypes,
    at,
    findings,
    first_move,
    last_move,
    moves,
    moves_of,
    order,
    planned,
)
from tests.support import demo, demo_files, demo_with

SR, TR = "fleet/holds/SR-AFT.yaml", "fleet/holds/TR-FWD.yaml"
LOADING, UNLOADING = Operation.LOADING, Operation.UNLOADING
ON, OFF = SetControl("power-switch", "on"), SetControl("power-switch", "off")
HAND_MOVES = """\
hand-moves:
  resistance-starting: 3 %
  resistance-moving: 2 %
  slope: 2 %
  force-starting: 200 N
  force-moving: 100 N
  source: GO 8-1
"""


@pytest.fixture(scope="module")
def types() -> UnitTypes:
    return demo().network.unit_types


def _edited(file: str, *edits: tuple[str, str]) -> Hold:
    """A demo hold with some texts replaced, each of which stands there once, or more often if told so."""
    text = demo_files()[file]
    for find, put in edits:
        assert find in text, find
        text = text.replace(find, put)
    loaded = demo_with(file, demo_files()[file], text)
    name = "SR-AFT" if file == SR else "TR-FWD"
    assert name in loaded.network.holds, [finding.message for finding in loaded.findings]
    return loaded.network.holds[name]


def _manual() -> Hold:
    """The single-row hold without power: no drives, no panel, hand moves allowed."""
    text = demo_files()[SR]
    power, controls = text.index("power:\n"), text.index("controls:\n")
    handle, drives = text.index("  sill-handle:"), text.index("drives:\n")
    restraints = text.index("restraints:\n")
    by_switch = "    lowered-by: {guide-switch: forward}\n    powered: true\n"
    by_hand = "    moved-by: hand\n    reached-from: outside\n"
    assert by_switch in text
    body = text[:power] + "controls:\n" + text[handle:drives] + HAND_MOVES + "\n" + text[restraints:]
    assert controls < handle
    return _edited(SR, (text, body.replace(by_switch, by_hand)))


def test_a_manual_hold_is_loaded_and_unloaded_by_pushing(types: UnitTypes) -> None:
    hold = _manual()
    for operation in Operation:
        made = planned(hold, types, operation)
        assert all(isinstance(move, Push) for move in moves(made))
        assert not [step for step in made.steps if isinstance(step, SetControl)]


def test_the_crew_follows_from_the_heavier_demand(types: UnitTypes) -> None:
    # Worked by hand: 1134 kg x 9.80665 m/s2 = 11 120.7 N.
    # Starting (3 % + 2 %): 556.0 N over 200 N, 3 people; moving (2 % + 2 %): 444.8 N over 100 N, 5 people.
    made = planned(_manual(), types, LOADING)
    pushes = [move for move in moves(made) if isinstance(move, Push)]
    assert {push.crew for push in pushes} == {5}


def test_nobody_pushes_alone(types: UnitTypes) -> None:
    # Worked by hand: 79 kg x 9.80665 m/s2 = 774.7 N; 5 % of it is 38.7 N, 4 % of it 31.0 N: one person each.
    leave = _manual().hand_moves
    assert leave is not None
    light: UnitType = types["AKH"]
    assert light.tare is not None
    assert crew(leave, replace(light, max_gross=light.tare)) == 2


def test_the_sill_handle_is_held_while_a_unit_is_pushed_out(types: UnitTypes) -> None:
    made = planned(_manual(), types, UNLOADING, ["44"])
    assert [move.hold for move in moves_of(made, "u44")] == [{"sill-handle": "down"}]


def test_a_drive_goes_before_a_push(types: UnitTypes) -> None:
    hold = _edited(SR, ("restraints:\n", HAND_MOVES + "\nrestraints:\n"))
    assert all(isinstance(move, Drive) for move in moves(planned(hold, types, LOADING)))
    units = choose_units(hold, types, ["42"])
    start = replace(state_at_rest(hold), dead=frozenset({"lane-drive"}))
    made = plan(hold, types, start, LOADING, units)
    assert isinstance(made, Plan)
    assert [type(move) for move in moves(made)] == [Drive, Push]
    # the guide on the way is lowered under power, so power stays on for the push
    assert moves(made)[1].hold == {"guide-switch": "forward"}
    assert findings(hold, types, made) == ()


def test_a_net_is_removed_and_fitted(types: UnitTypes) -> None:
    lock = "  lock-43:\n    name: lock 43\n    kind: lock"
    hold = _edited(SR, (lock, lock.replace("kind: lock", "kind: net")))
    assert Fit("lock-43") in planned(hold, types, LOADING).steps
    assert Remove("lock-43") in planned(hold, types, UNLOADING).steps


def test_a_shared_sill_lock_stays_down_until_nothing_needs_it_down(types: UnitTypes) -> None:
    held = "14L: {held-by: [lock-13L, left-aft-stop, centre-guide, left-rail]"
    hold = _edited(TR, (held, held.replace("left-rail", "left-rail, aft-sill-lock")))
    made = planned(hold, types, LOADING)
    assert order(made)[-2:] == ["u14L", "u14R"]
    assert at(made, Raise("aft-sill-lock")) > last_move(made, "u14R")


def test_a_unit_that_stays_comes_out_where_its_restraint_must_go_down_out_of_reach(types: UnitTypes) -> None:
    # lock 13L holds the unit in 13R too: it must be up as a unit comes to 14L, which then stands before it
    held = "13R: {held-by: [lock-12R, lock-13R,"
    hold = _edited(TR, (held, held.replace("lock-13R", "lock-13R, lock-13L")))
    stays = {"s13R": PlannedUnit("s13R", "AKE", "13R")}
    for operation in Operation:
        units = choose_units(hold, types, ["11L", "12L"])
        inside = {"s13R": "13R"} | ({"u11L": "11L", "u12L": "12L"} if operation is UNLOADING else {})
        made = plan(hold, types, state_at_rest(hold, inside), operation, units, stays)
        assert isinstance(made, Plan), made
        assert made.put_back == ("s13R",)


@pytest.mark.parametrize("moves_while_on", [True, False])
def test_power_goes_off_before_interlock_items_move_where_the_hold_asks_for_it(
    types: UnitTypes, moves_while_on: bool
) -> None:
    needs = "needs: {sill-lock: lowered}"
    edit = (needs, f"{needs}\n  interlock-moves-while-on: {str(moves_while_on).lower()}")
    made = planned(_edited(SR, edit), types, LOADING)
    assert (at(made, Raise("sill-lock")) < at(made, OFF)) is moves_while_on


def test_an_interlock_that_also_holds_a_bay_switches_power_off_in_between(types: UnitTypes) -> None:
    # Power needs lock 43 down, which holds 43 and 44: with a unit in 43, none can be driven into 44.
    needs = "needs: {sill-lock: lowered}"
    hold = _edited(SR, (needs, "needs: {sill-lock: lowered, lock-43: lowered}"))
    units = choose_units(hold, types)
    made = plan(hold, types, state_at_rest(hold), LOADING, units)
    assert isinstance(made, NoPlan)
    assert [reason.message for reason in made.reasons] == [
        "44 cannot be reached: power needs lock 43 lowered, but it holds u43"
    ]
    by_hand = (needs, "needs: {sill-lock: lowered, lock-43: lowered}\n  interlock-moves-while-on: false")
    hold = _edited(SR, by_hand, ("restraints:\n", HAND_MOVES + "\nrestraints:\n"))
    made = planned(hold, types, LOADING)
    assert at(made, OFF) < at(made, Raise("lock-43")) < first_move(made, "u44")
    assert isinstance(moves_of(made, "u44")[0], Push)


def test_items_that_must_be_up_and_down_in_one_run_split_it(types: UnitTypes) -> None:
    # lock 43 goes down by the guide switch, and guides the hop after it: it must be let up in between
    hand = "    moved-by: hand\n    reached-from: inside\n    at-rest: lowered\n"
    text = demo_files()[SR]
    start = text.index("  lock-43:")
    lock = text[start : text.index("  lock-42:")]
    by_switch = lock.replace(
        hand, '    lowered-by: {guide-switch: forward}\n    guides: [["43", "42"], ["42", "43"]]\n'
    )
    assert by_switch != lock
    hold = _edited(SR, (lock, by_switch))
    for operation in Operation:
        made = planned(hold, types, operation, ["41"])
        along = [move.through for move in moves(made) if "outside" not in move.through]
        hops = [["44", "43"], ["43", "42", "41"]]
        expected = hops if operation is LOADING else [way[::-1] for way in hops[::-1]]
        assert [list(way) for way in along] == expected


def test_an_overridden_item_without_a_spring_is_raised_by_hand_behind_the_unit(types: UnitTypes) -> None:
    lock = "    stops: [forward, aft]\n    moved-by: hand\n"
    text = demo_files()[SR]
    start = text.index("  lock-43:")
    before = text[start : text.index("  lock-42:")]
    after = before.replace(lock, lock + "    override: [forward]\n").replace("lowered\n", "raised\n")
    made = planned(_edited(SR, (before, after)), types, LOADING, ["41", "42"])
    assert Lower("lock-43") not in made.steps
    # nothing needs it up between the units, so it goes up once, at the end
    assert at(made, Raise("lock-43")) > last_move(made, "u42")


def test_a_power_switch_inside_is_left_before_everyone_is_counted_out(types: UnitTypes) -> None:
    switch = (
        'power-switch: {name: power switch, kind: switch, positions: ["off", "on"], behind: control-panel'
    )
    hold = _edited(SR, (switch, f"{switch}, at: inside"))
    made = planned(hold, types, LOADING, ["44"])
    assert at(made, OFF) < at(made, Check("everyone-out")) < at(made, Close("aft-door"))


def test_a_switch_that_somebody_left_on_is_set_back(types: UnitTypes) -> None:
    panel = "controls:\n"
    lamp = "  lamp-switch: {name: lamp switch, kind: switch, positions: [dark, lit]}\n"
    hold = _edited(SR, (panel, panel + lamp))
    rest = state_at_rest(hold)
    start = replace(rest, controls={**rest.controls, "lamp-switch": "lit"})
    made = plan(hold, types, start, LOADING, choose_units(hold, types, ["44"]))
    assert isinstance(made, Plan)
    assert SetControl("lamp-switch", "dark") in made.steps
    assert findings(hold, types, made) == ()


def test_a_hold_left_open_is_closed_with_nothing_to_move(types: UnitTypes) -> None:
    hold = _edited(SR)
    left = replace(
        state_at_rest(hold), open_doors=frozenset({"aft-door"}), open_panels=frozenset({"control-panel"})
    )
    made = plan(hold, types, left, LOADING, {})
    assert isinstance(made, Plan)
    assert [step for step in made.steps if isinstance(step, Close)] == [
        Close("control-panel"),
        Close("aft-door"),
    ]
    assert findings(hold, types, made) == ()


def test_whoever_closes_a_door_looks_at_its_latch_at_once_and_a_second_person_at_the_very_end(
    types: UnitTypes,
) -> None:
    for operation in Operation:
        made = planned(_two_doors(), types, operation)
        assert made.steps[-6:] == (
            Close("aft-door"),
            CheckLatch("aft-door", Looker.CLOSER),
            Close("other-door"),
            CheckLatch("other-door", Looker.CLOSER),
            CheckLatch("aft-door", Looker.SECOND),
            CheckLatch("other-door", Looker.SECOND),
        )
    near = planned(_two_doors(), types, LOADING, ["44"])
    assert {step.door for step in near.steps if isinstance(step, CheckLatch)} == {"aft-door"}


DUE = {
    "both": (frozenset(), [Looker.CLOSER, Looker.SECOND]),
    "the second": (frozenset({Looker.CLOSER}), [Looker.SECOND]),
    "the first": (frozenset({Looker.SECOND}), [Looker.CLOSER]),
    "none": (frozenset(Looker), []),
}


@pytest.mark.parametrize("due", DUE)
def test_looks_that_are_due_at_a_door_closed_before_are_made(types: UnitTypes, due: str) -> None:
    """Work that was broken off between closing a door and the last look at it, with nothing else to do."""
    hold, (seen, expected) = _two_doors(), DUE[due]
    left = replace(state_at_rest(hold), latch_seen={"other-door": seen})
    made = plan(hold, types, left, LOADING, {})
    assert isinstance(made, Plan)
    assert made.steps[1:] == tuple(CheckLatch("other-door", looker) for looker in expected)
    assert findings(hold, types, made) == ()


def test_looks_that_are_due_are_made_once_the_other_door_is_closed_too(types: UnitTypes) -> None:
    hold = _two_doors()
    left = replace(
        state_at_rest(hold),
        open_doors=frozenset({"aft-door"}),
        latch_seen={"other-door": frozenset({Looker.CLOSER})},
    )
    made = plan(hold, types, left, LOADING, {})
    assert isinstance(made, Plan)
    assert made.steps[-4:] == (
        Close("aft-door"),
        CheckLatch("aft-door", Looker.CLOSER),
        CheckLatch("aft-door", Looker.SECOND),
        CheckLatch("other-door", Looker.SECOND),
    )
    assert findings(hold, types, made) == ()
    opened = plan(hold, types, left, LOADING, choose_units(hold, types, ["41"]))
    assert isinstance(opened, Plan)
    assert opened.steps.count(CheckLatch("other-door", Looker.CLOSER)) == 1
    assert opened.steps.count(CheckLatch("other-door", Looker.SECOND)) == 1
    assert findings(hold, types, opened) == ()


def test_nothing_to_do_is_an_empty_plan(types: UnitTypes) -> None:
    hold = _edited(SR)
    made = plan(hold, types, state_at_rest(hold), LOADING, {})
    assert isinstance(made, Plan)
    assert made.steps == ()


# Bays that share floor, and two doors

MIDDLE = '  "43M": {x: [13.24 m, 14.84 m], y: [-0.79 m, 0.79 m], position: true}\n'


def _overlapping() -> Hold:
    """The single-row hold with one more position, 43M, that shares floor with 42 and 43."""
    return _edited(
        SR,
        ('  "44": {x: [15.88 m', MIDDLE + '  "44": {x: [15.88 m'),
        (
            '  - {go: forward, through: ["44", "43", "42", "41"]}\n',
            '  - {go: forward, through: ["44", "43", "42", "41"]}\n  - {go: forward, through: ["44", 43M]}\n',
        ),
        ('under: ["44", "43", "42", "41"]', 'under: ["44", "43", "42", "41", 43M]'),
        (
            '  "44": {held-by: [',
            "  43M: {held-by: [rails], max: {K: 1134 kg}, contours: [H], source: WB 5-1}\n"
            '  "44": {held-by: [',
        ),
    )


def test_bays_that_share_floor_exclude_one_another(types: UnitTypes) -> None:
    hold = _overlapping()
    assert "43M" not in {unit.bay for unit in choose_units(hold, types).values()}
    both = plan(hold, types, state_at_rest(hold), LOADING, choose_units(hold, types, ["43M", "42"]))
    assert isinstance(both, NoPlan)
    assert [reason.message for reason in both.reasons] == ["u43M in 43M and u42 in 42 share floor"]
    made = planned(hold, types, LOADING, ["43M", "41", "44"])
    assert order(made) == ["u41", "u43M", "u44"]
    stays = {"s": PlannedUnit("s", "AKH", "43M")}
    blocked = plan(
        hold, types, state_at_rest(hold, {"s": "43M"}), LOADING, choose_units(hold, types, ["41"]), stays
    )
    assert isinstance(blocked, Plan)
    assert blocked.put_back == ("s",)


def test_the_door_that_units_go_through_is_the_one_that_is_opened(types: UnitTypes) -> None:
    hold = _two_doors()
    near = planned(hold, types, LOADING, ["44"])
    far = planned(hold, types, LOADING, ["41"])
    assert Open("aft-door") in near.steps
    assert Open("other-door") not in near.steps
    assert Open("other-door") in far.steps
    assert Open("aft-door") not in far.steps
    assert moves_of(far, "u41")[0].through == ("outside", "41")
    whole = planned(hold, types, LOADING)
    assert {step for step in whole.steps if isinstance(step, Close)} >= {
        Close("aft-door"),
        Close("other-door"),
    }


def _two_doors() -> Hold:
    """The single-row hold with a second door at its far end."""
    text = demo_files()[SR]
    door = text[text.index("  aft-door:") : text.index("bays:")]
    other = door.replace("aft-door", "other-door").replace("aft cargo door", "other cargo door")
    other = other.replace("x: [15.86 m, 17.48 m]", "x: [10.88 m, 12.48 m]")
    other = other.replace("{sill-lock: raised}", "{}")
    return _edited(
        SR,
        (door, door.rstrip() + "\n" + other.rstrip() + "\n\n"),
        (
            '"41": {x: [10.90 m, 12.46 m], y: [-0.79 m, 0.79 m], position: true}',
            '"41": {x: [10.90 m, 12.46 m], y: [-0.79 m, 0.79 m], position: true, door: other-door}',
        ),
        (
            '  - {go: in, through: [outside, "44"]}\n',
            '  - {go: in, through: [outside, "44"]}\n  - {go: in, through: [outside, "41"]}\n',
        ),
        ('under: ["44"]', 'under: ["44", "41"]'),
        ("needs: {sill-lock: lowered}", "needs: {}"),
    )
