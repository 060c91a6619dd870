"""Seeded faults: every kind of slip is seeded, and what nobody notices is on a list that may only shrink."""

from collections import Counter
from functools import cache
from pathlib import Path

import pytest
import yaml

from procgen.disk.stations import read_stations
from procgen.faults import Outcome, Score, mutants
from procgen.model.step import CheckItems, Note, Section
from procgen.model.words import Operation
from procgen.pipeline.checking import Checked, CheckedProcedure, check, load_inputs
from procgen.pipeline.faults import seed_faults
from tests.support import demo

STATIONS = Path(__file__).parents[2] / "stations"
ACCEPTED = Path(__file__).parent / "survivors.yaml"


@cache
def _checked() -> Checked:
    return check(load_inputs(read_stations(STATIONS)))


def _names() -> list[str]:
    """Every derived and hand-written procedure of the demonstration."""
    network = demo().network
    derived = [f"{hold}-{operation}" for hold in network.holds for operation in Operation]
    return [*derived, *(one.name for station in network.stations.values() for one in station.procedures)]


@cache
def _score(name: str) -> Score:
    return seed_faults(_checked(), [name])


def _accepted() -> list[dict[str, str]]:
    return yaml.safe_load(ACCEPTED.read_text(encoding="utf-8")) or []


def test_every_procedure_is_among_those_that_are_mutated() -> None:
    clean = {one.procedure.name for one in _all() if not one.findings}
    assert clean == set(_names())
    assert len(_checked().generated) == 2 * len(_checked().network.holds)
    assert {entry["procedure"] for entry in _accepted()} <= clean
    assert all(entry["because"].strip() for entry in _accepted())


@pytest.mark.parametrize("name", _names())
def test_slips_of_every_kind_are_found_and_survivors_are_those_on_the_list(name: str) -> None:
    """One procedure a test, so that processes share them."""
    score = _score(name)
    kinds: dict[str, Counter[Outcome]] = {}
    for one in score.verdicts:
        kinds.setdefault(one.mutant.kind, Counter())[one.outcome] += 1
    assert set(kinds) >= {"leave out", "swap", "item", "state", "bay", "unit"}
    assert all(outcomes[Outcome.FOUND] > 0 for outcomes in kinds.values()), kinds
    survivors = {one.mutant.name for one in score.survivors()}
    assert survivors == {entry["mutant"] for entry in _accepted() if entry["procedure"] == name}
    assert len(survivors) <= sum(outcomes[Outcome.FOUND] for outcomes in kinds.values()) // 50
    _only_what_changes_nothing_is_left_out_unnoticed(name)


def _only_what_changes_nothing_is_left_out_unnoticed(name: str) -> None:
    """A section's head, a look at untouched items: leaving out any action is found."""
    (clean,) = (one for one in _all() if one.procedure.name == name)
    left_out = [one for one in _score(name).verdicts if one.mutant.kind == "leave out"]
    harmless = [one for one in left_out if one.outcome is Outcome.HARMLESS]
    assert len(left_out) > len(harmless)
    for verdict in harmless:
        step = clean.procedure.steps[verdict.mutant.step - 1]
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
