"""Section 3: limits with something missing."""

from __future__ import annotations

from procgen.limits.missing import missing_cell, missing_table
from procgen.results.missing import MissingCell
from tests.limits.holds import hold, plain_position, restraint, unit_type
from tests.support import demo, demo_hold


def one(name: str, position: str, kind: str, *out: str) -> MissingCell:
    described = demo_hold(name)
    return missing_cell(described, described.positions[position], demo().network.unit_types[kind], out)


def test_a_direction_left_without_restraint_is_not_usable() -> None:
    """Lock 41 is all that holds position 41 from going aft."""
    found = one("SR-AFT", "41", "AKH", "lock-41")
    assert not found.usable
    assert found.limit is None
    assert not found.lowered
    assert found.cell.reasons == ("nothing that holds it is rated aft (load factor 1.5 g)",)
    assert str(found.whole.limit) == "1134 kg"


def test_one_of_two_restraints_out_lowers_the_limit() -> None:
    """Hand-worked: 1000 kg ask 1.5 x g0 x 1000 = 14 709.975 N of two locks forward; with the one of 7.5 kN
    out, 8 kN are left: 8000 / 14.709975 = 543.8 kg, and the lock left governs.
    """
    box = restraint("walls", aft="50 kN", left="50 kN", right="50 kN", up="50 kN")
    locks = (restraint("lock-1", forward="7.5 kN"), restraint("lock-2", forward="8 kN"))
    described = hold(box, *locks, position=plain_position(held_by=("walls", "lock-1", "lock-2")))
    found = missing_cell(described, described.positions["1"], unit_type(), ("lock-1",))
    assert found.usable
    assert found.lowered
    assert found.limit is not None
    assert found.limit.down(1) == "543.8 kg"
    assert found.cell.governing is not None
    assert found.cell.governing.kind == "restraint-forward"
    both = missing_cell(described, described.positions["1"], unit_type(), ("lock-1", "lock-2"))
    assert not both.usable


def test_sill_lock_out_at_the_door() -> None:
    """Hand-worked: the inner guide alone holds 10 000 / (1.3 x g0 = 12.748645) = 784.3 kg going right."""
    found = one("SR-AFT", "44", "AKH", "sill-lock")
    assert found.lowered
    assert found.limit is not None
    assert found.limit.down(1) == "784.3 kg"
    assert found.cell.governing is not None
    assert found.cell.governing.kind == "restraint-right"


def test_a_restraint_that_was_not_needed_changes_nothing() -> None:
    walls = restraint("walls", forward="50 kN", aft="50 kN", left="50 kN", right="50 kN", up="50 kN")
    spare = restraint("spare", forward="5 kN")
    described = hold(walls, spare, position=plain_position(held_by=("walls", "spare")))
    found = missing_cell(described, described.positions["1"], unit_type(), ("spare",))
    assert found.usable
    assert not found.lowered
    assert found.limit == found.whole.limit


def test_the_table_has_every_restraint_once_and_the_pairs_allowed() -> None:
    described = demo_hold("SR-AFT")
    pair = frozenset({"lock-41", "lock-42"})
    table = missing_table(described, demo().network.unit_types, [pair, frozenset({"lock-41", "sill-lock"})])
    of_42 = [
        cell.out for cell in table.cells if cell.whole.position == "42" and cell.whole.unit_type == "AKH"
    ]
    assert of_42 == [("lock-41",), ("lock-42",), ("rails",), ("lock-41", "lock-42")]
    assert {cell.whole.unit_type for cell in table.cells} == {"AKH", "PKC"}
    assert table.hold == "SR-AFT"


def test_nothing_missing_ever_raises_a_limit() -> None:
    for name in ("SR-AFT", "TR-FWD"):
        described = demo_hold(name)
        every = {frozenset({a, b}) for a in described.restraints for b in described.restraints if a != b}
        for cell in missing_table(described, demo().network.unit_types, every).cells:
            assert cell.whole.limit is not None
            assert cell.limit is None or cell.limit <= cell.whole.limit
