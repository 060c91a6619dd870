"""What holds for a move under power is not said of one by hand, nor the reverse; and no move is unwarned."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

import pytest

from procgen.model.hazard import Hazard, Match, Scope
from procgen.model.step import Drive, OutOfService, Procedure, Push, Section, Step, Warn
from procgen.model.words import Failure, Operation
from procgen.plan import choose_units, plan
from procgen.results.out_of_service import failed, without
from procgen.results.plan import Plan
from procgen.results.state import state_at_rest
from procgen.write import compose, phrases
from procgen.write.moving import push
from procgen.write.standing import Standing
from tests.support import demo, demo_hold
from tests.write.derived import generated, page_of, steps_of
from tests.write.looking import assert_warnings_in_place

HAZARDS = demo().network.hazards
CRUSHED = {
    "drive": "crushed-by-moving-unit",
    "push": "crushed-by-pushed-unit",
    "pull": "crushed-by-pulled-unit",
}
MOVING = ("drive", "push", "pull")
_CREW_IS_IN = re.compile(r"[Pp]ush|crew")
_NOBODY_IS_IN = re.compile(r"[Ss]tay out|powered")


@cache
def without_power(name: str, operation: Operation) -> Procedure:
    """A hold in which units are moved by hand because its power is dead."""
    out, hold, unit_types = OutOfService("power", Failure.DEAD), demo_hold(name), demo().network.unit_types
    left = without(hold, (out,))
    units = choose_units(left, unit_types, None)
    aboard = {u.name: u.bay for u in units.values()} if operation is Operation.UNLOADING else {}
    found = plan(left, unit_types, failed(left, state_at_rest(left, aboard), (out,)), operation, units)
    assert isinstance(found, Plan), found
    return compose(found, hold, HAZARDS)


def procedures() -> Iterator[Procedure]:
    """Moves under power, moves by hand in a hold that has no power, and in one whose power is dead."""
    for operation in Operation:
        for name in ("SR-AFT", "MX-AFT", "MR-FWD", "MR-FWD-M9"):
            yield generated(name, operation)
        yield without_power("MX-AFT", operation)


def _moves(match: Match) -> set[str]:
    return set(match.verbs) & set(MOVING)


def _of(hazard: Hazard) -> set[str]:
    return {verb for match in hazard.comes_with for verb in _moves(match)}


@pytest.mark.parametrize("verb", MOVING)
def test_every_move_comes_with_a_warning_of_being_crushed(verb: str) -> None:
    """In either operation, whatever is moved: a match that asks for nothing but the verb."""
    hazard = HAZARDS.hazards[CRUSHED[verb]]
    assert Match(frozenset({verb})) in hazard.comes_with
    assert hazard.scope is Scope.SECTION
    assert "crushes" in hazard.consequence


def test_no_warning_says_of_one_kind_of_move_what_is_true_of_the_other() -> None:
    for hazard in HAZARDS.hazards.values():
        if "push" in _of(hazard):
            assert not _NOBODY_IS_IN.search(hazard.avoid), hazard.name
        if "drive" in _of(hazard):
            assert not _CREW_IS_IN.search(hazard.avoid), hazard.name


def test_moves_are_warned_of_by_their_kind_in_their_section() -> None:
    seen: set[str] = set()
    for procedure in procedures():
        assert_warnings_in_place(procedure, demo_hold(procedure.hold), HAZARDS)
        for section in _sections(procedure):
            warned = {step.hazard for step in section if isinstance(step, Warn)}
            verbs = {"drive" for step in section if isinstance(step, Drive)}
            verbs |= {"pull" if step.gear else "push" for step in section if isinstance(step, Push)}
            assert {CRUSHED[verb] for verb in verbs} == warned & set(CRUSHED.values())
            seen |= verbs
    assert seen == set(MOVING)


def _sections(procedure: Procedure) -> Iterator[list[Step]]:
    section: list[Step] = []
    for step in procedure.steps:
        if isinstance(step, Section):
            yield section
            section = []
        section.append(step)
    yield section


def test_the_look_along_the_way_leaves_the_crew_in_the_hold_where_people_move_the_unit() -> None:
    """Under power nobody is in the hold; by hand the crew is, and to say otherwise teaches not to read."""
    said = {}
    for name in ("SR-AFT", "MR-FWD"):
        looks = [s for s in steps_of(page_of(generated(name, Operation.LOADING))) if "clear?" in s.text]
        (said[name],) = {look.done_when for look in looks}
    assert said["SR-AFT"] == "Done when everyone has answered and nobody is in the hold or in the way."
    assert said["MR-FWD"] == (
        "Done when everyone has answered and only the crew is in the hold, and nobody in the way."
    )


def test_a_pull_says_with_what_from_where_and_when_to_let_go() -> None:
    """Where nobody gets behind a unit: out it is pulled; along the hold the supervisor is asked."""
    shown = steps_of(page_of(generated("MR-FWD", Operation.UNLOADING)))
    pulls = [step for step in shown if step.text.startswith("Pull")]
    assert len(pulls) == 3
    assert {step.text for step in pulls} == {
        "Pull the unit OUT with 5 people and the **pulling strap** until the unit is on the platform."
        " Hold the **roll-back stop pedal** to DOWN meanwhile."
        " Those who pull stand on the platform, past where the unit stops."
        " When it rolls by itself, let go of the **pulling strap** and step out of its way."
    }
    assert all("crushed-by-pulled-unit" in step.marks for step in pulls)
    pushes = [step for step in shown if step.text.startswith("Push")]
    assert all(phrases.NO_ROOM in step.text for step in pushes)
    looks = [step.done_when for step in shown if "clear?" in step.text]
    assert sum("only the crew" in look for look in looks) == len(pushes)


def test_gear_is_named_by_its_title_and_unknown_gear_by_its_key() -> None:
    hold = demo_hold("MR-FWD")
    standing = Standing(frozenset(), {}, {"u": "23"})
    said = push(Push("u", 2, ("23", "outside"), gear="hawser"), standing, hold)
    assert said.text.startswith("Pull the unit OUT with 2 people and the **hawser** until")
    assert push(Push("u", 2, ("23",), gear="hawser"), standing, hold).text.startswith("Pull the unit with 2")
