"""Every rule by slips in clean procedures: exactly that one finding, at exactly that line.

What is expected is common practice of the trade, no source.
"""

from __future__ import annotations

import pytest

from procgen.diagnostics import Severity
from procgen.simulate import RULES
from tests.simulate.bench import PROCEDURE, bench, found
from tests.simulate.kinds import MIX_IN, MIX_OUT, SECT_IN, SECT_OUT
from tests.simulate.procedures import PULL_OUT, ROW_IN, ROW_OUT, TWIN_IN, TWIN_OUT, YARD_IN
from tests.simulate.slips import SLIPS, Slip

CLEAN = {
    "row in": ROW_IN,
    "row out": ROW_OUT,
    "twin in": TWIN_IN,
    "twin out": TWIN_OUT,
    "yard in": YARD_IN,
    "pull out": PULL_OUT,
    "sect in": SECT_IN,
    "sect out": SECT_OUT,
    "mix in": MIX_IN,
    "mix out": MIX_OUT,
}

ELSEWHERE = {
    "person-left-inside": "test_ending.py",
}
"""Rules that no one-line slip shows alone, and where they are tested."""


@pytest.mark.parametrize("name", CLEAN)
def test_a_clean_procedure_has_no_finding(name: str) -> None:
    assert found(bench(CLEAN[name]).run()) == []


@pytest.mark.parametrize("slip", SLIPS, ids=str)
def test_one_slip_is_one_finding_where_it_stands(slip: Slip) -> None:
    run = bench(CLEAN[slip.clean], *slip.edits, hold=slip.hold)
    trace = run.run()
    assert [finding.rule for finding in trace.findings] == [slip.rule], found(trace)
    (finding,) = trace.findings
    assert slip.at in run.line(finding)


@pytest.mark.parametrize("slip", SLIPS, ids=str)
def test_a_finding_tells_where_what_and_a_way_out(slip: Slip) -> None:
    run = bench(CLEAN[slip.clean], *slip.edits, hold=slip.hold)
    (finding,) = run.run().findings
    subject = dict(finding.subject)
    assert finding.severity is Severity.ERROR
    assert finding.suggestion
    assert finding.message.startswith(("step ", "at the end "))
    for related in finding.related:
        assert related.place.file
        assert related.message
    if "step" in subject:
        step = run.procedure.steps[int(subject["step"]) - 1]
        assert finding.place == step.place
        if finding.message.startswith("step "):
            assert finding.message.startswith(f"step {subject['step']} ")
    else:
        assert finding.place.file == PROCEDURE


def test_every_rule_has_a_slip_that_shows_it() -> None:
    shown = {slip.rule for slip in SLIPS} | set(ELSEWHERE)
    assert shown == {rule.name for rule in RULES}


def test_rule_names_are_plain_and_stand_once() -> None:
    names = [rule.name for rule in RULES]
    assert len(set(names)) == len(names)
    for rule in RULES:
        assert rule.name == rule.name.lower()
        assert all(word.isalpha() for word in rule.name.split("-"))
        assert rule.meaning.endswith(".")
