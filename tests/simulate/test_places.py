"""Where findings of derived steps point, and which names are near."""

from __future__ import annotations

from dataclasses import replace

import pytest

from procgen.diagnostics import NOWHERE
from procgen.model.step import Lower, Raise
from procgen.simulate import simulate
from procgen.simulate.names import called, did_you_mean, either, listed, nearest
from tests.simulate.bench import bench
from tests.simulate.procedures import ROW_IN


def test_a_step_that_no_file_says_points_at_the_description_behind_it() -> None:
    run = bench(ROW_IN)
    steps = tuple(replace(step, place=NOWHERE) for step in run.procedure.steps if step != Lower("sill-lock"))
    trace = simulate(run.hold, run.loaded.network.unit_types, replace(run.procedure, steps=steps))
    (finding,) = trace.findings
    assert finding.rule == "interlock-not-met"
    assert finding.place == run.hold.power.place if run.hold.power else NOWHERE
    assert finding.place.file == "fleet/holds/SR-AFT.yaml"


def test_an_end_finding_of_a_derived_procedure_points_at_the_item() -> None:
    run = bench(ROW_IN)
    steps = tuple(replace(step, place=NOWHERE) for step in run.procedure.steps if step != Raise("lock-42"))
    derived = replace(run.procedure, steps=steps[:-3], place=NOWHERE)
    places = {
        finding.rule: finding.place
        for finding in simulate(run.hold, run.loaded.network.unit_types, derived).findings
    }
    assert places["door-left-open"] == run.hold.doors["aft-door"].place
    assert places["released-early"] == run.hold.restraints["lock-42"].place


@pytest.mark.parametrize(
    ("name", "near"),
    [
        ("lock-14", ("lock-41",)),  # swapped letters come before another letter
        ("lock-4", ("lock-43", "lock-42", "lock-41")),
        ("Sill-Lock", ("sill-lock",)),
        ("sil-lock", ("sill-lock",)),
        ("catch", ()),
        ("", ()),
    ],
)
def test_nearest_names(name: str, near: tuple[str, ...]) -> None:
    assert nearest(name, ("sill-lock", "lock-43", "lock-42", "lock-41")) == near


def test_suggestions_for_unknown_names() -> None:
    assert did_you_mean("u4", ("u41", "u42"), "unit") == "did you mean u41 or u42?"
    assert did_you_mean("box", ("u41", "u42"), "unit") == "name one of u41 and u42"
    assert did_you_mean("box", (), "unit") == "the hold has no unit"


def test_lists_in_words() -> None:
    assert [listed(()), listed(("a",)), listed(("a", "b")), listed(("a", "b", "c"))] == [
        "",
        "a",
        "a and b",
        "a, b and c",
    ]
    assert either(("a", "b", "c")) == "a, b or c"


def test_a_thing_is_called_by_its_title_and_its_yaml_name_where_that_differs() -> None:
    hold = bench(ROW_IN).hold
    assert called(hold.restraints["lock-43"]) == "lock 43"
    assert called(hold.restraints["sill-lock"]) == "door sill lock (sill-lock)"
