"""Every subset of the positions of every demonstration hold, planned and simulated, both ways."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

import pytest

from procgen.model.hold import Hold
from procgen.model.words import Operation
from tests.plan.planning import findings, planned
from tests.support import ROOT, demo, demo_hold

PARTS = 4
"""Into how many tests the subsets of one hold are dealt, so that they can run side by side."""


def _subsets(hold: Hold) -> Iterator[tuple[str, ...]]:
    """The sets of positions that can be loaded at once: no two of them share floor."""
    sharing = {name: hold.overlapping(name) for name in hold.positions}
    for size in range(len(hold.positions) + 1):
        for chosen in combinations(hold.positions, size):
            if not any(other in sharing[name] for name in chosen for other in chosen):
                yield chosen


@pytest.mark.parametrize("part", range(PARTS))
@pytest.mark.parametrize("name", sorted(demo().network.holds))
def test_every_subset_of_positions_has_a_sound_plan(name: str, part: int) -> None:
    hold, types = demo_hold(name), demo().network.unit_types
    subsets = list(_subsets(hold))
    assert len(subsets) >= 2 * len(hold.positions)
    for chosen in subsets[part::PARTS]:
        for operation in Operation:
            made = planned(hold, types, operation, chosen)
            assert findings(hold, types, made) == (), (chosen, operation, made.steps)


def test_how_many_subsets_there_are() -> None:
    """The figures that the documentation names: sets of positions, and plans (each worked both ways)."""
    counted = sum(len(list(_subsets(hold))) for hold in demo().network.holds.values())
    named = (ROOT / "docs" / "architecture.md").read_text("utf-8").replace("\n", " ")
    for number, what in (
        (counted, "sets of positions"),
        (counted * len(Operation), "plans, loading and unloading"),
    ):
        thousands = f"{number:,}".replace(",", " ")
        assert f"{thousands} {what}" in named, thousands
