"""One slip, one finding: over every step left out, swapped or with one thing in it replaced.

A replaced item is two slips (one thing done too much, one not done), so there two may be found.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from procgen.faults.mutants import mutants
from procgen.simulate import simulate
from tests.simulate.bench import bench
from tests.simulate.test_rules import CLEAN


@pytest.mark.parametrize("name", CLEAN)
def test_no_single_slip_gives_a_flood_and_what_is_not_found_is_harmless(name: str) -> None:
    """Common practice, no source: what is not found must end in the same hold (checks made may differ)."""
    run = bench(CLEAN[name])
    types = run.loaded.network.unit_types
    end = simulate(run.hold, types, run.procedure).final
    floods: list[str] = []
    missed: list[str] = []
    for mutant in mutants(run.procedure, run.hold):
        trace = simulate(run.hold, types, mutant.procedure)
        count = len(trace.findings)
        if count > (3 if mutant.kind == "item" else 1):
            floods.append(f"{mutant.name}: {count}")
        same = (
            replace(trace.final, checks=end.checks, path_clear=end.path_clear, clear_for=end.clear_for) == end
        )
        if count == 0 and not same:
            missed.append(mutant.name)
    assert floods == []
    assert missed == []
