"""One slip, one finding: over every step left out, swapped or with one thing in it replaced.

A replaced item is two slips (one thing done too much, one not done), so there two may be found.
"""

from __future__ import annotations

import pytest

from procgen.faults.mutants import mutants
from procgen.simulate import simulate
from tests.simulate.bench import bench
from tests.simulate.test_rules import CLEAN


@pytest.mark.parametrize("name", CLEAN)
def test_no_single_slip_gives_a_flood(name: str) -> None:
    run = bench(CLEAN[name])
    types = run.loaded.network.unit_types
    floods: list[str] = []
    for mutant in mutants(run.procedure, run.hold):
        count = len(simulate(run.hold, types, mutant.procedure).findings)
        if count > (3 if mutant.kind == "item" else 1):
            floods.append(f"{mutant.name}: {count}")
    assert floods == []


@pytest.mark.parametrize("name", CLEAN)
def test_a_slip_that_is_not_found_ends_in_the_same_hold(name: str) -> None:
    """Common practice, no source: what is not found must be harmless; which checks were made may differ."""
    run = bench(CLEAN[name])
    types = run.loaded.network.unit_types
    end = simulate(run.hold, types, run.procedure).final
    for mutant in mutants(run.procedure, run.hold):
        trace = simulate(run.hold, types, mutant.procedure)
        if trace.findings:
            continue
        last = trace.final
        assert (last.restraints, last.controls, last.units) == (end.restraints, end.controls, end.units)
        assert (last.open_doors, last.open_panels, last.inside) == (frozenset(), frozenset(), False)
