"""What holds a section of loose pieces: its own nets and walls, each towards itself, even one that grips."""

from __future__ import annotations

from dataclasses import replace

from procgen.limits import position_table
from procgen.limits.missing import left_cell
from procgen.lint.strength import counts
from procgen.model.words import LoadDirection
from tests.support import demo, demo_hold


def test_a_net_that_is_said_to_grip_holds_no_loose_load_away_from_itself() -> None:
    """A net aft of section 52 stops nothing in it that slides forward: it has no base to grip."""
    hold, types = demo_hold("BK-AFT"), demo().network.unit_types
    nets = {name: replace(hold.restraints[name], grips=True) for name in ("net-52", "net-53")}
    gripping = replace(hold, restraints={**hold.restraints, **nets})
    assert position_table(gripping, types) == position_table(hold, types)
    assert not left_cell(gripping, gripping.positions["52"], types["BAGS"], ("net-52",)).usable
    assert not left_cell(gripping, gripping.positions["52"], types["BAGS"], ("net-53",)).usable
    assert not counts(gripping, nets["net-53"], "52", LoadDirection.FORWARD)
    assert counts(gripping, nets["net-53"], "53", LoadDirection.FORWARD)


def test_a_lock_that_grips_a_base_still_holds_it_both_ways() -> None:
    """The sill locks of MR-FWD hold the unit in the doorway to the left too."""
    hold = demo_hold("MR-FWD")
    assert counts(hold, hold.restraints["aft-sill-lock"], "23", LoadDirection.LEFT)
