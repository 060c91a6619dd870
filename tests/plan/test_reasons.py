"""Where there is no plan, the reasons say what is to blame, and point at it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from procgen.diagnostics import Route
from procgen.model.hold import Hold
from procgen.model.step import PlannedUnit
from procgen.model.words import Operation, RestraintState
from procgen.plan import choose_units, plan
from procgen.results.plan import NoPlan, Plan, Reason
from procgen.results.state import State, state_at_rest
from tests.plan.planning import UnitTypes, attempt, dead, planned, refused, stuck
from tests.support import demo, demo_hold, demo_with

FILE = "fleet/holds/SR-AFT.yaml"
LOADING, UNLOADING = Operation.LOADING, Operation.UNLOADING
RAISED, LOWERED = RestraintState.RAISED, RestraintState.LOWERED


@pytest.fixture(scope="module")
def hold() -> Hold:
    return demo_hold("SR-AFT")


@pytest.fixture(scope="module")
def types() -> UnitTypes:
    return demo().network.unit_types


def _told(reasons: tuple[Reason, ...]) -> list[tuple[str, Route]]:
    return [(reason.message, reason.place.route) for reason in reasons]


OUT_OF_SERVICE: list[tuple[Callable[[State], State], Operation, list[str], str, Route]] = [
    (
        stuck("lock-42", LOWERED),
        LOADING,
        ["42"],
        "position 42 cannot be restrained: lock 42 is stuck lowered",
        ("restraints", "lock-42"),
    ),
    (
        stuck("lock-43", RAISED),
        LOADING,
        ["41", "42"],
        "42, 41 cannot be reached: lock 43 between 44 and 43 stops forward travel and is stuck raised",
        ("restraints", "lock-43"),
    ),
    (
        stuck("sill-lock", LOWERED),
        LOADING,
        ["41"],
        "the aft cargo door cannot be closed: door sill lock is stuck lowered",
        ("restraints", "sill-lock"),
    ),
    (
        stuck("sill-lock", RAISED),
        UNLOADING,
        ["44"],
        "u44 cannot be brought out: door sill lock between 44 and outside stops out travel"
        " and is stuck raised",
        ("restraints", "sill-lock"),
    ),
    (
        stuck("side-guide", LOWERED),
        LOADING,
        ["44"],
        "44 cannot be reached: side guide must be up to guide a unit from outside to 44,"
        " but is stuck lowered",
        ("restraints", "side-guide"),
    ),
    (
        dead("stick"),
        LOADING,
        ["41", "44"],
        "44, 41 cannot be reached: the drive stick is dead and the hold forbids moving by hand",
        ("controls", "stick"),
    ),
    (
        dead("door-drive"),
        UNLOADING,
        ["44"],
        "u44 cannot be brought out: the door drive from 44 to outside is dead and the hold forbids moving by"
        " hand",
        ("drives", "door-drive"),
    ),
    (
        dead("power"),
        LOADING,
        ["44"],
        "44 cannot be reached: the power is dead and the hold forbids moving by hand",
        ("power",),
    ),
    (
        dead("power-switch"),
        LOADING,
        ["44"],
        "44 cannot be reached: the power switch is dead and the hold forbids moving by hand",
        ("power",),
    ),
    (
        dead("guide-switch"),
        LOADING,
        ["43"],
        "43 cannot be reached: side guide between 44 and 43 stops forward travel and the side guide switch is"
        " dead",
        ("restraints", "side-guide"),
    ),
    (
        dead("sill-handle"),
        UNLOADING,
        ["44"],
        "u44 cannot be brought out: sill stop between 44 and outside stops out travel"
        " and the sill stop handle is dead",
        ("restraints", "sill-stop"),
    ),
]


@pytest.mark.parametrize(("change", "operation", "positions", "message", "route"), OUT_OF_SERVICE)
def test_an_item_out_of_service_is_named(
    hold: Hold,
    types: UnitTypes,
    change: Callable[[State], State],
    operation: Operation,
    positions: list[str],
    message: str,
    route: Route,
) -> None:
    assert _told(refused(hold, types, operation, positions, change)) == [(message, route)]


def test_an_item_out_of_service_that_is_in_nobodys_way_changes_nothing(hold: Hold, types: UnitTypes) -> None:
    whole = planned(hold, types, LOADING, ["44"])
    for change in (dead("lane-drive"), dead("guide-switch"), stuck("lock-41", RAISED), dead("sill-handle")):
        made = attempt(hold, types, LOADING, ["44"], change)
        assert isinstance(made, Plan), made
        assert made.steps == whole.steps


EDITS = [
    (
        "    moved-by: hand\n    reached-from: inside\n    at-rest: lowered\n"
        "    rating: {forward: 17.8 kN, aft: 17.8 kN, up: 8.9 kN}\n    source: WB 4-2\n  lock-42:",
        "    fixed: true\n  lock-42:",
        LOADING,
        "43, 42, 41 cannot be reached: lock 43 between 44 and 43 stops forward travel and nothing lowers it",
        ("restraints", "lock-43"),
    ),
    (
        "  height: 1.24 m",
        "  height: 1.00 m",
        LOADING,
        "no unit type fits 41; AKE: it is 1626 mm high, 41 takes 1.00 m",
        ("positions", "41"),
    ),
    (
        "close-needs: {sill-lock: raised}",
        "close-needs: {sill-lock: lowered}",
        LOADING,
        "door sill lock must be raised and lowered as the aft cargo door closes",
        ("restraints", "sill-lock"),
    ),
    (
        "needs: {sill-lock: lowered}",
        "needs: {sill-lock: lowered, side-guide: lowered}",
        LOADING,
        "44, 43, 42, 41 cannot be reached: power needs side guide lowered, but nothing moves it",
        ("restraints", "side-guide"),
    ),
    (
        "guide-switch, kind"
        if False
        else "positions: [centre, forward], hold-to-run: true, behind: control-panel",
        "positions: [centre, forward], hold-to-run: true, behind: control-panel, at: inside",
        LOADING,
        "43, 42, 41 cannot be reached: side guide between 44 and 43 stops forward travel and the side guide"
        " switch is worked inside, where nobody may be as a unit moves",
        ("restraints", "side-guide"),
    ),
    (
        "    override: [in]                   # pushed down on the way in\n"
        "    lowered-by: {sill-handle: down}  # held down on the way out\n",
        "    lowered-by: {guide-switch: forward}\n",
        LOADING,
        "44, 43, 42, 41 cannot be reached: the side guide switch has to be held at forward"
        " from outside to 44, but that also lowers side guide, which must be up to guide the unit",
        ("controls", "guide-switch"),
    ),
]


@pytest.mark.parametrize(("find", "put", "operation", "message", "route"), EDITS)
def test_what_the_description_makes_impossible_is_named(
    types: UnitTypes, find: str, put: str, operation: Operation, message: str, route: Route
) -> None:
    changed = demo_with(FILE, find, put)
    reasons = refused(changed.network.holds["SR-AFT"], changed.network.unit_types, operation)
    assert (message, route) in _told(reasons)


def test_more_controls_than_two_hands_hold(types: UnitTypes) -> None:
    inner = "    moved-by: hand\n    reached-from: outside\n"
    rest = "    returns: spring\n    at-rest: raised\n    rating: {right: 10 kN}"
    by_switch = "    lowered-by: {guide-switch: forward}\n"
    hold = demo_with(FILE, inner + rest, by_switch + rest).network.holds["SR-AFT"]
    message = (
        "3 controls would have to be held at once from 44 to outside"
        " (drive stick, sill stop handle, side guide switch)"
    )
    reasons = refused(hold, types, UNLOADING, ["44"])
    assert _told(reasons) == [(f"u44 cannot be brought out: {message}", ("controls", "guide-switch"))]


def test_a_unit_of_no_known_type_that_stays_in_the_way_is_named(hold: Hold, types: UnitTypes) -> None:
    for operation in Operation:
        units = choose_units(hold, types, ["41", "44"])
        inside = {"s43": "43"} | ({"u41": "41", "u44": "44"} if operation is UNLOADING else {})
        made = plan(hold, types, state_at_rest(hold, inside), operation, units)
        assert isinstance(made, NoPlan)
        who = "41 cannot be reached" if operation is LOADING else "u41 cannot be brought out"
        assert _told(made.reasons) == [(f"{who}: s43 stands in 43", ("bays", "43"))]


def test_a_unit_that_would_have_to_come_out_and_cannot_is_named(hold: Hold, types: UnitTypes) -> None:
    stays = {"s43": PlannedUnit("s43", "AKH", "43")}
    units = choose_units(hold, types, ["41"])
    start = stuck("lock-43", RestraintState.RAISED)(state_at_rest(hold, {"s43": "43"}))
    made = plan(hold, types, start, LOADING, units, stays)
    assert isinstance(made, NoPlan)
    assert [reason.message for reason in made.reasons] == [
        "41 cannot be reached: s43 stands in 43",
        "s43 would have to come out first, but s43 cannot be brought out: lock 43 between 43 and 44 stops"
        " aft travel and is stuck raised",
    ]


def _plan(hold: Hold, types: UnitTypes, start: State, *units: PlannedUnit) -> list[str]:
    made = plan(hold, types, start, LOADING, {unit.name: unit for unit in units})
    assert isinstance(made, NoPlan)
    return [reason.message for reason in made.reasons]


def test_a_task_that_makes_no_sense_is_refused(hold: Hold, types: UnitTypes) -> None:
    start = state_at_rest(hold)
    assert _plan(hold, types, start, PlannedUnit("u", "AKH", "49")) == ["SR-AFT has no bay 49"]
    assert _plan(hold, types, start, PlannedUnit("u", "XYZ", "41")) == ["there is no unit type XYZ for u"]
    assert _plan(hold, types, start, PlannedUnit("u", "AKE", "41")) == [
        "AKE does not fit 41: it is 1626 mm high, 41 takes 1.24 m"
    ]
    assert _plan(hold, types, start, PlannedUnit("one", "AKH", "41"), PlannedUnit("other", "AKH", "41")) == [
        "one and other are both meant for 41"
    ]
    occupied = state_at_rest(hold, {"stays": "41"})
    assert _plan(hold, types, occupied, PlannedUnit("u", "AKH", "41")) == [
        "u and stays are both meant for 41"
    ]
    lost = replace(start, units={"stays": "99"})
    assert _plan(hold, types, lost, PlannedUnit("u", "AKH", "41")) == [
        "stays stands in 99, which SR-AFT does not have"
    ]


def test_what_is_said_to_be_aboard_must_be_there(hold: Hold, types: UnitTypes) -> None:
    stays = {"s41": PlannedUnit("s41", "AKH", "41")}
    made = plan(hold, types, state_at_rest(hold), LOADING, {}, stays)
    assert isinstance(made, NoPlan)
    assert [reason.message for reason in made.reasons] == [
        "s41 is said to stay in 41 but is not in the hold at the start"
    ]
    gone = plan(hold, types, state_at_rest(hold), UNLOADING, choose_units(hold, types, ["41"]))
    assert isinstance(gone, NoPlan)
    assert [reason.message for reason in gone.reasons] == ["u41 is not in the hold at the start"]


def test_no_unit_types_at_all(hold: Hold) -> None:
    made = attempt(hold, {}, LOADING, ["41"])
    assert isinstance(made, NoPlan)
    assert [reason.message for reason in made.reasons] == ["there is no unit type for u41"]
