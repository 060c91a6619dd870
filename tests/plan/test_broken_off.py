"""Something fails at a step, or half-way through a move: the way out is proven, or every aim says why not.

Here the best aim is asked for, to finish the operation, of every third moment; of every moment and of every
other aim tests/pipeline/test_recovering.py asks.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from itertools import islice

import pytest

from procgen.model.hold import Hold
from procgen.model.step import Drive, Procedure, Push
from procgen.model.words import Operation
from procgen.plan import recover
from procgen.results.plan import Plan, Recovery
from procgen.results.state import State
from procgen.simulate import simulate
from tests.plan.planning import UnitTypes, findings, planned
from tests.support import demo, demo_hold

HOLDS = tuple(sorted(demo().network.holds))


def _broken_off(hold: Hold, types: UnitTypes, made: Plan) -> Iterator[tuple[str, State]]:
    """What can have gone wrong at each step, and the state then.

    After each step somebody may have gone in. In every move, at each bay that it passes and at its end, the
    power or the drives that the held controls run may have died.
    """
    procedure = Procedure("plan", hold.name, made.operation, made.units, made.steps)
    for step, traced in zip(made.steps, simulate(hold, types, procedure, made.start).steps, strict=True):
        if traced.after.open_doors:
            yield "person inside", replace(traced.after, inside=True, path_clear=False)
        if not isinstance(step, Drive | Push):
            continue
        runs = {name for name, drive in hold.drives.items() if drive.run_by in step.hold}
        for count in range(2, len(step.through) + 1):
            part = replace(step, through=step.through[:count])
            moved = simulate(hold, types, replace(procedure, steps=(part,)), traced.before).steps[0].after
            yield "power dead", replace(moved, dead=frozenset({"power"}))
            if runs:
                yield "drive dead", replace(moved, dead=frozenset(runs))


@pytest.mark.parametrize("operation", Operation)
@pytest.mark.parametrize("name", HOLDS)
def test_from_every_step_that_is_broken_off_there_is_a_proven_way_or_a_reason_for_every_aim(
    name: str, operation: Operation
) -> None:
    hold, types = demo_hold(name), demo().network.unit_types
    made = planned(hold, types, operation)
    tally: Counter[tuple[str, str]] = Counter()
    for what, state in islice(_broken_off(hold, types, made), 0, None, 3):
        found = recover(hold, types, state, operation, made.units)
        if isinstance(found, Recovery):
            assert findings(hold, types, found.plan) == (), (what, found.plan.steps)
            tally[what, str(found.aim)] += 1
        else:
            assert found.reasons
            assert all(reason.message and reason.place.file for reason in found.reasons)
            tally[what, "call"] += 1
    print(name, operation, dict(tally))
    assert tally["person inside", "go on"] > 2
    assert tally["person inside", "call"] == 0
