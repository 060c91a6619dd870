"""What a pallet over two rows, and loose loads behind roller floor, may weigh; worked by hand beside each."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

import pytest

from procgen.limits import position_table
from procgen.limits.engaged import engaged
from procgen.lint.rules import limit_above_area_load, limit_above_restraints
from procgen.lint.strength import counts
from procgen.model.words import LoadDirection
from procgen.units import Dimension, Quantity, quantity
from tests.deck import deck_files, deck_hold, deck_with

F, A, L, R, U = LoadDirection


def candidates(position: str, unit_type: str) -> Mapping[str, Quantity]:
    """What limits a unit there, by kind, on a floor that carries little."""
    network = deck_with("area: {value: 150 lb/ft2", "area: {value: 15 lb/ft2").network
    table = position_table(network.holds["LD7"], network.unit_types)
    (found,) = [one for one in table.cells if (one.position, one.unit_type) == (position, unit_type)]
    return {one.kind: one.mass for one in found.candidates}


@pytest.mark.parametrize(
    ("item", "holds"),
    [
        ("lock-12L", {F, L, R, U}),  # between a row's bay under the pallet and the one forward of it
        ("lock-12R", {F, L, R, U}),
        ("lock-31", {A, L, R, U}),
        ("sill-latch", {F, A, L, U}),  # at the left door
        ("right-rail", {F, A, L, R, U}),  # beside it: its rating alone tells
    ],
)
def test_a_narrow_lock_holds_a_pallet_over_both_rows_towards_itself_only(
    item: str, holds: set[LoadDirection]
) -> None:
    hold = deck_hold()
    position, restraint = hold.positions["22P"], hold.restraints[item]
    assert {d for d in LoadDirection if engaged(hold, position, restraint, d)} == holds
    assert {d for d in LoadDirection if counts(hold, restraint, "22P", d)} == holds


def test_the_pallet_at_the_door_is_held_aft_by_the_lock_bar_alone() -> None:
    aft = candidates("22P", "PMC")["restraint-aft"]
    # 20 000 lbf / 1.5; the locks forward of it (6 300 lbf aft each) hold the containers of 12 only
    assert aft.si == Fraction(40_000, 3) * quantity("1 lb", Dimension.MASS).si


def test_a_loose_load_lies_on_the_floor_itself_whatever_units_stand_on() -> None:
    area = candidates("51", "BAGS")["area-load"]
    # 15 lb/ft2 on 53 in by 100 in; a square foot is 144 square inches
    assert area.si == Fraction(15 * 53 * 100, 144) * quantity("1 lb", Dimension.MASS).si
    assert "area-load" not in candidates("31P", "PMC")  # on rollers


def test_a_position_that_says_more_than_the_floor_under_loose_loads_carries_is_found() -> None:
    loaded = deck_with("area: {value: 150 lb/ft2", "area: {value: 15 lb/ft2")
    hold, network = loaded.network.holds["LD7"], loaded.network
    complaints = list(limit_above_area_load.RULE.check(hold, network))
    assert [one.place.route[-1] for one in complaints] == ["BAGS", "BAGS"]
    assert "allows only 250.4 kg" in complaints[0].message  # 15 x 53 x 100 / 144 = 552.08 lb


def test_what_is_too_weak_names_only_the_restraints_that_hold_that_way() -> None:
    weak = "lock bar 31, kind: lock, between: [22P, 31P], stops: [forward, aft], moved-by: hand"
    rated = deck_files()["fleet/holds/LD7.yaml"].split(weak)[1].split("\n")[0]
    network = deck_with(weak + rated, weak + rated.replace("aft: 20 000 lbf", "aft: 9 000 lbf")).network
    found = list(limit_above_restraints.RULE.check(network.holds["LD7"], network))
    (pallet,) = [one for one in found if "“22P”" in one.message]
    assert "aft is enough for 6 000.0 lb only" in pallet.message  # 9 000 lbf / 1.5
    assert [one.message.split("”")[0] for one in pallet.related] == ["the load factor aft", "“lock-31"]
