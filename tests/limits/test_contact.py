"""Section 4: floor contact and spreading."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.limits.contact import (
    bearers,
    contact_uses,
    four_points,
    least_area_limit,
    least_board,
    most_cargo,
    spread,
)
from procgen.model.stated import Stated
from procgen.results.floor_contact import FloorLimits, Piece
from procgen.results.uses import first_to_bind
from procgen.units import Quantity, of
from tests.limits.holds import WB, area, length, mass, running

FAA = "FAA airline transport pilot knowledge-test style items (limits.md); published values are cut"


@pytest.mark.parametrize(
    ("sides", "limit", "pallet", "tie_downs", "published"),
    [
        (("36", "48"), 169, 47, 33, "1948.0"),
        (("76", "74"), 176, 77, 29, "6767.8"),
        (("138.5", "97.6"), 235, 219, 71, "21769.9"),
        (("33.5", "48.5"), 76, 44, 27, "786.5"),
        (("143", "125.2"), 209, 197, 66, "25721.9"),
    ],
)
def test_most_cargo_on_a_pallet(
    sides: tuple[str, str], limit: int, pallet: int, tie_downs: int, published: str
) -> None:
    """Length x width in inches / 144 x lb/ft2 - pallet - tie-downs, within 0.2 lb of the published value.

    Source: FAA airline transport pilot knowledge-test style items (limits.md); published values are cut.
    """
    answer = most_cargo(
        of(limit, "lb/ft2"), of(sides[0], "in"), of(sides[1], "in"), of(pallet + tie_downs, "lb")
    )
    assert answer.unit.symbol == "lb"
    assert answer.value == Fraction(sides[0]) * Fraction(sides[1]) / 144 * limit - pallet - tie_downs
    assert abs(answer.value - Fraction(published)) < Fraction("0.2"), FAA


@pytest.mark.parametrize(
    ("sides", "pallet", "tie_downs", "cargo", "published"),
    [(("48.5", "33.5"), 44, 27, "786.5", "76 lb/ft2"), (("39", "37"), 37, 21, "1094.3", "115 lb/ft2")],
)
def test_least_floor_limit(
    sides: tuple[str, str], pallet: int, tie_downs: int, cargo: str, published: str
) -> None:
    """Source: FAA airline transport pilot knowledge-test style items (limits.md); a demand is rounded up."""
    tare = of(pallet + tie_downs, "lb")
    answer = least_area_limit(of(cargo, "lb"), of(sides[0], "in"), of(sides[1], "in"), tare, "lb/ft2")
    assert answer.up() == published, FAA


def test_spreading_through_a_plank() -> None:
    """12 x 6 in through a 2 in plank: 72 -> 160 square inches. Source: FM 55-9, chapter 6 (limits.md)."""
    long, wide = spread(of(12, "in"), of(6, "in"), of(2, "in"))
    assert [long.value, wide.value] == [16, 10]
    assert long.value * wide.value == 160


def test_eccentric_load_on_four_points() -> None:
    """40 000 lb, arms 5/10 and 15/10 -> 10 667, 5 333, 16 000, 8 000 lb. Source: MIL-STD-209K, appendix C
    (limits.md).
    """
    x, y = (of(15, "ft"), of(10, "ft")), (of(5, "ft"), of(10, "ft"))
    answer = four_points(of(40_000, "lb"), x, y)
    assert [round(load.value) for load in answer] == [10_667, 5_333, 16_000, 8_000]
    assert sum(load.value for load in answer) == 40_000


def test_running_area_and_contact_load_of_a_crate_on_skids() -> None:
    """Hand-worked: (900 + 60) kg on 2 m x 1 m with 2 skids 0.1 m wide: 480 kg/m, 480 kg/m2, 2400 kg/m2."""
    crate = Piece(of(900, "kg"), of(2, "m"), of(1, "m"), 2, support_width=of(100, "mm"), tare=of(60, "kg"))
    limits = FloorLimits(running("500 kg/m"), area("480 kg/m2"), area("2000 kg/m2"))
    uses = contact_uses(crate, limits)
    assert [use.kind for use in uses] == ["running-load", "area-load", "contact-load"]
    assert [use.used.si for use in uses] == [480, 480, 2400]
    assert [use.met for use in uses] == [True, True, False]
    assert [use.margin.si for use in uses] == [20, 0, -400]
    assert first_to_bind(uses) is uses[2]
    assert uses[2].reckoning == "960 kg / (2 × 2 m × 100 mm) = 2 400 kg/m2 of 2000 kg/m2"
    assert uses[0].sources == (WB,)


def test_uses_are_in_the_unit_of_the_limit_and_only_for_limits_that_exist() -> None:
    """Hand-worked: 4520 lb over 100 in is 45.2 lb/in."""
    piece = Piece(of(4520, "lb"), of(100, "in"), of(60, "in"))
    (use,) = contact_uses(piece, FloorLimits(running=running("45.2 lb/in")))
    assert (use.used.value, use.used.unit.symbol) == (Fraction("45.2"), "lb/in")
    assert use.met
    assert use.reckoning == "4 520 lb / length 100 in = 45.2 lb/in of 45.2 lb/in"


def test_least_board_of_a_machine_on_four_feet() -> None:
    """Hand-worked: 1600 kg on 4 feet of 0.1 m x 0.1 m and 2000 kg/m2: 0.2 m2 under each, sides of
    sqrt(0.2) m = 447.2 mm, so (447.2 - 100) / 2 = 173.6 mm; up: 174 mm and 448 mm.
    """
    machine = Piece(of(1600, "kg"), of(2, "m"), of(2, "m"), 4, length("100 mm"), length("100 mm"))
    board = least_board(machine, of(2000, "kg/m2"))
    assert str(board.thickness) == "174 mm"
    assert (str(board.length), str(board.width)) == ("448 mm", "448 mm")
    assert board.reckoning == "1 600 kg / (4 × 448 mm × 448 mm) = 1 992.9… kg/m2 of 2 000 kg/m2"


def test_least_board_in_whole_inches() -> None:
    """Hand-worked: 160 lb on 12 x 6 in and 1 lb/in2 (144 lb/ft2) needs exactly the 2 in plank of FM 55-9."""
    piece = Piece(of(160, "lb"), of(12, "in"), of(6, "in"))
    assert str(least_board(piece, of(144, "lb/ft2"), of(1, "in")).thickness) == "2 in"
    heavier = Piece(of("160.001", "lb"), of(12, "in"), of(6, "in"))
    assert str(least_board(heavier, of(144, "lb/ft2"), of(1, "in")).thickness) == "3 in"


def test_no_board_is_needed_where_the_floor_carries_the_piece() -> None:
    piece = Piece(of(100, "kg"), of(1, "m"), of(1, "m"))
    assert least_board(piece, of(100, "kg/m2")).thickness.si == 0


def test_spreads_that_meet_do_not_count_twice() -> None:
    """Hand-worked: 4 feet of 0.2 m under 0.5 m x 0.5 m bear at most on the spread of the footprint, so 1000
    kg and 1000 kg/m2 need (0.5 + 2t)^2 = 1 m2: 250 mm, not 150 mm.
    """
    piece = Piece(of(1000, "kg"), of("0.5", "m"), of("0.5", "m"), 4, length("0.2 m"), length("0.2 m"))
    board = least_board(piece, of(1000, "kg/m2"))
    assert str(board.thickness) == "250 mm"
    assert board.reckoning == "1 000 kg / (1 m × 1 m) = 1 000 kg/m2 of 1 000 kg/m2"


@pytest.mark.parametrize(
    ("load", "line", "long", "count"),
    [("3000 kg", "500 kg/m", "2 m", 3), ("3001 kg", "500 kg/m", "2 m", 4), ("10 kg", "500 kg/m", "2 m", 2)],
)
def test_number_of_bearers(load: str, line: str, long: str, count: int) -> None:
    """Hand-worked: mass / (limit x length), up; at least two (common practice, no source)."""
    assert bearers(mass(load).quantity, running(line).quantity, length(long)) == count


def test_sizes_that_are_not_above_zero_are_refused() -> None:
    with pytest.raises(ValueError, match="above zero"):
        Piece(of(0, "kg"), of(1, "m"), of(1, "m"))
    with pytest.raises(ValueError, match="above zero"):
        bearers(of(10, "kg"), of(0, "kg/m"), of(1, "m"))
    with pytest.raises(ValueError, match="between the supports"):
        four_points(of(10, "kg"), (of(0, "m"), of(0, "m")), (of(1, "m"), of(1, "m")))


SIDES = st.integers(50, 3000).map(lambda mm: of(mm, "mm"))
MASSES = st.integers(1, 20_000).map(lambda kg: of(kg, "kg"))
LIMITS = st.integers(100, 5000).map(lambda kg: of(kg, "kg/m2"))


@settings(deadline=None)
@given(MASSES, SIDES, SIDES, LIMITS)
def test_least_board_agrees_with_the_root_of_the_quadratic(
    load: Quantity, long: Quantity, wide: Quantity, limit: Quantity
) -> None:
    """4t^2 + 2(a + b)t + ab = m / q, solved in floating point, as an independent answer."""
    a, b, needed = float(long.si), float(wide.si), float(load.si / limit.si)
    root = (math.sqrt((a - b) ** 2 + 4 * needed) - (a + b)) / 4
    board = least_board(Piece(load, long, wide), limit)
    assert board.thickness.value >= 0
    assert abs(float(board.thickness.value) - max(0.0, root * 1000)) < 1 + 1e-6
    assert load.si <= limit.si * board.length.si * board.width.si
    if board.thickness.value > 0:
        thinner = spread(long, wide, of(board.thickness.value - 1, "mm"))
        assert load.si > limit.si * thinner[0].si * thinner[1].si


@settings(deadline=None)
@given(MASSES, SIDES, SIDES, LIMITS, st.integers(0, 500))
def test_what_fits_fits_with_less_and_most_cargo_is_the_most(
    load: Quantity, long: Quantity, wide: Quantity, limit: Quantity, tare: int
) -> None:
    cargo = most_cargo(limit, long, wide, of(tare, "kg"))
    stated = FloorLimits(area=Stated(limit, None))
    if cargo.si > 0:
        (use,) = contact_uses(Piece(cargo, long, wide, tare=of(tare, "kg")), stated)
        assert use.used == limit
        assert use.share == 1
    (use,) = contact_uses(Piece(load, long, wide, tare=of(tare, "kg")), stated)
    assert use.met is (load <= cargo if cargo.si > 0 else use.used <= limit)
    asked = least_area_limit(load, long, wide, of(tare, "kg"))
    assert use.used == asked


@settings(deadline=None)
@given(MASSES, SIDES, SIDES, SIDES, SIDES)
def test_four_points_carry_the_mass_and_its_moments(
    load: Quantity, x1: Quantity, x2: Quantity, y1: Quantity, y2: Quantity
) -> None:
    a, b, c, d = (each.si for each in four_points(load, (x1, x2), (y1, y2)))
    assert a + b + c + d == load.si
    assert (a + b) * x1.si == (c + d) * x2.si
    assert (a + c) * y1.si == (b + d) * y2.si
