"""Composing and wording hold for every hold that can be planned, not only for the demonstration."""

from __future__ import annotations

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from procgen.limits import position_table
from procgen.model.words import Operation
from procgen.plan import choose_units, plan
from procgen.results.plan import Plan
from procgen.results.state import state_at_rest
from procgen.write import compose, page
from tests.strategies import GeneratedHold, holds
from tests.support import demo
from tests.write.derived import steps_of
from tests.write.language import sentences, words
from tests.write.looking import assert_checks_in_time, assert_warnings_in_place

HAZARDS = demo().network.hazards


@settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow])
@given(holds(), st.sampled_from(Operation))
def test_everything_stands_in_its_place_in_any_hold(drawn: GeneratedHold, operation: Operation) -> None:
    """And the page of it says every step, in sentences that a reader can hold in the head."""
    hold = drawn.hold
    units = choose_units(hold, drawn.unit_types, None)
    aboard = {u.name: u.bay for u in units.values()} if operation is Operation.UNLOADING else {}
    outcome = plan(hold, drawn.unit_types, state_at_rest(hold, aboard), operation, units)
    assume(isinstance(outcome, Plan) and outcome.units)
    assert isinstance(outcome, Plan)
    procedure = compose(outcome, hold, HAZARDS)
    assert_warnings_in_place(procedure, hold, HAZARDS)
    assert_checks_in_time(procedure, hold, HAZARDS)
    shown = page(procedure, hold, drawn.unit_types, HAZARDS, position_table(hold, drawn.unit_types))
    assert sum(block.kind == "cycle" for block in shown.blocks) >= len(units)
    for step in steps_of(shown):
        for sentence in sentences(f"{step.text} {step.why} {step.done_when} {step.if_not}"):
            assert words(sentence) <= 20, sentence
