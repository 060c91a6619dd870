"""What holds of every hold that validates, drawn at random."""

from __future__ import annotations

from hypothesis import HealthCheck, given, settings

from procgen.lint import check_data, check_procedure
from procgen.model.words import Operation
from procgen.plan import choose_units, plan
from procgen.results.plan import NoPlan
from procgen.results.state import state_at_rest
from procgen.write import compose
from tests.strategies import GeneratedHold, holds
from tests.support import demo, load_texts

LAID_OUT_WELL = {
    "bay-outside-floor",
    "bays-overlap",
    "lane-wrong-way",
    "lane-jumps",
    "lane-starts-at-no-door",
    "door-misses-bay",
    "door-unused",
    "position-unreachable",
    "bay-off-every-lane",
    "between-not-neighbours",
    "stops-across-lane",
    "guides-no-lane",
    "drive-across-lane",
    "limit-above-running-load",
    "wind-limits-reversed",
    "listed-twice",
}
"""Rules about what the drawing of a hold always gets right."""


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(holds())
def test_no_false_alarm_about_the_layout_of_any_hold(drawn: GeneratedHold) -> None:
    network = load_texts({"fleet/holds/GEN.yaml": drawn.text}).network
    wrong = [finding for finding in check_data(network) if finding.rule in LAID_OUT_WELL]
    assert wrong == [], drawn.text


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(holds())
def test_a_composed_procedure_lacks_no_safety_content(drawn: GeneratedHold) -> None:
    hold, hazards = drawn.hold, demo().network.hazards
    units = choose_units(hold, drawn.unit_types, None)
    for operation in Operation:
        aboard = {unit.name: unit.bay for unit in units.values()} if operation is Operation.UNLOADING else {}
        planned = plan(hold, drawn.unit_types, state_at_rest(hold, aboard), operation, units)
        if not isinstance(planned, NoPlan):
            findings = check_procedure(compose(planned, hold, hazards), hold, hazards)
            assert findings == (), (findings, drawn.text)


@settings(max_examples=20, deadline=None, suppress_health_check=list(HealthCheck))
@given(holds())
def test_the_same_hold_gives_the_same_findings(drawn: GeneratedHold) -> None:
    files = {"fleet/holds/GEN.yaml": drawn.text}
    once, again = (check_data(load_texts(files).network) for _ in range(2))
    assert once == again
    assert [finding.place for finding in once] == [finding.place for finding in again]
