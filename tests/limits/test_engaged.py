"""A restraint holds a unit towards itself, and not away from itself unless it grips the base.

Common practice of the trade, no source: a lock standing forward of a unit does not keep it from going aft.
"""

from __future__ import annotations

import pytest

from procgen.limits import position_table
from procgen.limits.engaged import engaged
from procgen.model.words import LoadDirection
from tests.support import demo_hold, demo_with

F, A, L, R, U = LoadDirection


@pytest.mark.parametrize(
    ("position", "item", "holds"),
    [
        ("12L", "lock-11L", {F, L, R, U}),  # stands forward of it
        ("12L", "lock-12L", {A, L, R, U}),  # stands aft of it
        ("12L", "centre-rail", {F, A, R, U}),  # beside both rows: on the right of the left row
        ("12R", "centre-rail", {F, A, L, U}),
        ("14L", "centre-guide", {F, A, R, U}),
        ("14R", "centre-guide", {F, A, L, U}),
        ("14R", "forward-sill-lock", {F, A, L, R, U}),  # grips
        ("11L", "left-end-stop", {F, A, L, R, U}),  # beside one bay: its rating alone tells
    ],
)
def test_which_way_a_restraint_of_the_twin_row_hold_counts(
    position: str, item: str, holds: set[LoadDirection]
) -> None:
    hold = demo_hold("TR-FWD")
    found = {d for d in LoadDirection if engaged(hold, hold.positions[position], hold.restraints[item], d)}
    assert found == holds


def test_a_sill_lock_that_does_not_grip_holds_nothing_inward() -> None:
    loaded = demo_with(
        "fleet/holds/SR-AFT.yaml",
        '"44": {held-by: [lock-43, aft-stop, inner-guide, sill-lock, far-rail]',
        '"44": {held-by: [lock-43, aft-stop, inner-guide, sill-lock]',
    )
    table = position_table(loaded.network.holds["SR-AFT"], loaded.network.unit_types)
    (cell,) = [cell for cell in table.cells if (cell.position, cell.unit_type) == ("44", "AKH")]
    assert cell.limit is None
    assert any("left" in reason for reason in cell.reasons)
