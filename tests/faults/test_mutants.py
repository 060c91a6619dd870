"""Seeded faults: every kind of slip is seeded, and what nobody notices is on a list that may only shrink."""

from collections import Counter
from functools import cache
from pathlib import Path

import pytest
import yaml

from procgen.disk.stations import read_stations
from procgen.faults import Outcome, Score, mutants
from procgen.model.step import CheckItems, Note, Section
from procgen.pipeline.checking import Checked, CheckedProcedure, check, load_inputs
from procgen.pipeline.faults import seed_faults

# The score is computed once: all tests of it run in one process.
pytestmark = pytest.mark.xdist_group("faults")

STATIONS = Path(__file__).parents[2] / "stations"
ACCEPTED = Path(__file__).parent / "survivors.yaml"


@cache
def _checked() -> Checked:
    return check(load_inputs(read_stations(STATIONS)))


@cache
def _score() -> Score:
    return seed_faults(_checked())


def test_every_procedure_of_every_demo_hold_is_mutated() -> None:
    judged = {verdict.procedure for verdict in _score().verdicts}
    derived = {one.procedure.name for one in _checked().generated.values()}
    written = {one.procedure.name for procedures in _checked().written.values() for one in procedures}
    assert judged == derived | written
    assert len(derived) == 2 * len(_checked().network.holds)


@pytest.mark.parametrize(
    "kind", ["leave out", "swap", "item", "state", "direction", "control", "bay", "unit"]
)
def test_every_kind_of_slip_is_seeded_and_mostly_found(kind: str) -> None:
    outcomes = Counter(v.outcome for v in _score().verdicts if v.mutant.kind == kind)
    assert outcomes[Outcome.FOUND] > 20
    assert outcomes[Outcome.SURVIVED] <= outcomes[Outcome.FOUND] // 50


def test_survivors_are_those_on_the_list_and_each_is_explained() -> None:
    accepted = yaml.safe_load(ACCEPTED.read_text(encoding="utf-8")) or []
    assert all(entry["because"].strip() for entry in accepted)
    survivors = {(v.procedure, v.mutant.name) for v in _score().survivors()}
    assert survivors == {(entry["procedure"], entry["mutant"]) for entry in accepted}


def test_leaving_out_any_action_is_found() -> None:
    """Only what changes nothing in the hold may go unnoticed: a section's head, a look at untouched items."""
    harmless = [
        v for v in _score().verdicts if v.outcome is Outcome.HARMLESS and v.mutant.kind == "leave out"
    ]
    procedures = {one.procedure.name: one.procedure for one in _all()}
    assert harmless
    for verdict in harmless:
        step = procedures[verdict.procedure].steps[verdict.mutant.step - 1]
        assert isinstance(step, Section | CheckItems | Note), verdict.mutant.name


def test_a_mutant_differs_from_its_procedure_and_names_its_slip() -> None:
    for one in _checked().generated.values():
        names = set()
        for mutant in mutants(one.procedure, one.hold):
            assert mutant.procedure.steps != one.procedure.steps, mutant.name
            assert str(mutant.step) in mutant.name
            names.add(mutant.name)
        assert len(names) > len(one.procedure.steps)


def _all() -> list[CheckedProcedure]:
    written = [one for procedures in _checked().written.values() for one in procedures]
    return [*_checked().generated.values(), *written]
