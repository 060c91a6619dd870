"""Section 7: moving by hand."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.limits.hand_tables import pulling_table
from procgen.limits.handmoves import hand_move, most_by_hand, push_force
from procgen.model.hand_moves import HandMoves
from procgen.model.stated import Stated
from procgen.units import Quantity, of
from tests.support import demo_hold

HSE = "UK HSE push and pull assessment (limits.md)"


def leave(
    starting: str = "2",
    moving: str = "2",
    slope: str = "0",
    forces: tuple[int, int] = (200, 100),
    most: int | None = None,
) -> HandMoves:
    """Leave with resistances and slope in per cent and forces in N; by default HSE's figures for men."""

    def stated(quantity: Quantity) -> Stated:
        return Stated(quantity, None)

    return HandMoves(
        stated(of(starting, "%")),
        stated(of(moving, "%")),
        stated(of(slope, "%")),
        stated(of(forces[0], "N")),
        stated(of(forces[1], "N")),
        stated(of(most, "kg")) if most else None,
    )


@pytest.mark.parametrize(
    ("forces", "starting", "moving", "crew"), [((200, 100), 1, 2, 2), ((150, 70), 2, 3, 3)]
)
def test_a_tonne_on_a_good_level_surface(
    forces: tuple[int, int], starting: int, moving: int, crew: int
) -> None:
    """Force at least 2 % of the load on good surfaces; one person 200 N / 150 N to start (men, women),
    100 N / 70 N to keep moving: 1000 kg x g0 x 2 % = 196.133 N. Source: UK HSE push and pull assessment
    (limits.md).
    """
    move = hand_move(leave(forces=forces), of(1000, "kg"))
    assert move.phases[0].force.si == Fraction("196.133"), HSE
    assert [push.people for push in move.phases] == [starting, moving]
    assert move.crew == crew
    assert move.reasons == ()
    assert move.governing is move.phases[1]
    assert move.phases[1].reckoning == (
        f"1 000 kg × 9.80665 m/s2 × (2 % + 0 %) = 196.1… N; {forces[1]} N a person"
    )


def test_a_slope_adds_to_the_resistance() -> None:
    """Hand-worked: 1134 kg x 9.80665 x (3 % + 2 %) = 556.03... N: at 200 N, 3 people."""
    move = hand_move(leave("3", "1", "2"), of(1134, "kg"))
    assert move.phases[0].force.down(2) == "556.03 N"
    assert [push.people for push in move.phases] == [3, 4]
    assert move.crew == 4


def test_nobody_pushes_alone() -> None:
    assert hand_move(leave(), of(1, "kg")).crew == 2
    assert hand_move(leave("0", "0"), of(1000, "kg")).crew == 2


def test_a_hold_may_forbid_it_or_cap_the_mass() -> None:
    forbidden = hand_move(None, of(10, "kg"))
    assert (forbidden.crew, forbidden.phases, forbidden.governing) == (None, (), None)
    assert forbidden.reasons == ("the hold does not allow units to be moved by hand",)
    capped = leave(most=700)
    assert hand_move(capped, of(700, "kg")).crew is not None
    over = hand_move(capped, of("700.001", "kg"))
    assert over.crew is None
    assert over.reasons == ("700.001 kg is above 700 kg, the most that may be moved by hand",)


def test_no_force_from_a_person_moves_nothing() -> None:
    assert hand_move(leave(forces=(0, 100)), of(1, "kg")).reasons == ("no force may be asked of a person",)
    assert most_by_hand(leave(forces=(0, 100)), 9) == of(0, "kg")


def test_the_assumption_is_said() -> None:
    assert "add their forces" in hand_move(leave(), of(10, "kg")).assumption


def test_most_by_hand() -> None:
    """Hand-worked: two people at 100 N on 2 %: 200 / (9.80665 x 0.02) = 1019.7 kg."""
    assert most_by_hand(leave(), 1) is None
    assert most_by_hand(None, 4) is None
    most = most_by_hand(leave(), 2)
    assert most is not None
    assert most.down(1) == "1 019.7 kg"
    assert most_by_hand(leave(most=900), 2) == of(900, "kg")
    assert most_by_hand(leave("0", "0"), 2) is None


PER_CENT = st.fractions(0, 20, max_denominator=20).map(str)
FORCES = st.tuples(st.integers(50, 400), st.integers(30, 300))


@settings(deadline=None)
@given(PER_CENT, PER_CENT, PER_CENT, FORCES, st.integers(1, 5000), st.integers(0, 2000))
def test_crew_is_enough_and_never_grows_with_less(
    starting: str, moving: str, slope: str, forces: tuple[int, int], kilograms: int, less: int
) -> None:
    given_leave = leave(starting, moving, slope, forces)
    crew = hand_move(given_leave, of(kilograms, "kg")).crew
    lighter = hand_move(given_leave, of(max(1, kilograms - less), "kg")).crew
    assert crew is not None
    assert lighter is not None
    assert 2 <= lighter <= crew
    most = most_by_hand(given_leave, crew)
    assert most is None or most.si >= kilograms
    if crew > 2:
        fewer = most_by_hand(given_leave, crew - 1)
        assert fewer is not None
        assert fewer.si < kilograms


@settings(deadline=None)
@given(st.integers(1, 5000), st.floats(0, 0.2), st.floats(0, 0.2))
def test_force_is_never_under_the_full_formula(kilograms: int, resistance: float, tangent: float) -> None:
    """m g0 (c cos s + sin s) in floating point, as an independent answer."""
    angle = math.atan(tangent)
    full = kilograms * 9.80665 * (resistance * math.cos(angle) + math.sin(angle))
    ours = push_force(
        of(kilograms, "kg"), of(Fraction(resistance) * 100, "%"), of(Fraction(tangent) * 100, "%")
    )
    assert full * (1 - 1e-12) <= float(ours.si) <= full * math.sqrt(1 + tangent**2) * (1 + 1e-12)


def test_what_may_be_pulled_is_the_least_of_rating_and_cap_with_all_its_candidates() -> None:
    """By hand: 500 N / (9.80665 m/s2 x 5 %) = 1019.7 kg to start it, x 4 % = 1274.6 kg to keep it moving."""
    hold = demo_hold("MR-FWD")
    leave = hold.hand_moves
    assert leave is not None
    gear = leave.gear["pulling-strap"]
    weaker = replace(gear, pull=replace(gear.pull, quantity=of(500, "N")))
    table = pulling_table(replace(hold, hand_moves=replace(leave, gear={gear.name: weaker})))
    assert table is not None
    ((figure,),) = (row.figures for row in table.rows)
    assert (figure.shown, figure.governs) == ("1 019 kg", "to start it")
    assert [(other.title, other.value) for other in figure.others] == [
        ("the hold's own cap", "1 134 kg"),
        ("to keep it moving", "1 274 kg"),
    ]
    assert pulling_table(replace(hold, hand_moves=replace(leave, gear={}))) is None
