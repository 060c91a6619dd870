"""Section 5: tie-down."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.limits.angles import cosine_squared, root, sine_squared
from procgen.limits.tiedown import (
    demand,
    lay_by_angles,
    lay_by_ends,
    number_needed,
    share,
    strap_hold,
    straps_needed,
    tie_down,
)
from procgen.model.stated import Stated
from procgen.model.words import LoadDirection
from procgen.results.tie_down import Lay, Strap
from procgen.units import Quantity, of
from tests.limits.holds import force, gees

FORWARD, AFT, LEFT, RIGHT, UP = LoadDirection
ALONG = lay_by_angles(Fraction(0), Fraction(0), [FORWARD])


def test_shares_at_thirty_degrees() -> None:
    """v 30, h 30 -> 75.0 / 43.3 / 50.0 %; squares sum to 1. Source: direction cosines; the published chart
    itself from memory (memory).
    """
    lay = lay_by_angles(Fraction(30), Fraction(30), [FORWARD, LEFT, UP])
    shares = [share(lay, direction) for direction in (FORWARD, LEFT, UP)]
    assert [math.floor(part * 1000) for part in shares] == [750, 433, 500]
    assert (shares[0], shares[2]) == (Fraction(3, 4), Fraction(1, 2))
    assert sum(lay.squares.values()) == 1


def test_rounding_up_a_count() -> None:
    """55 000 lb x 1.5 / 11 000 lb -> 8. Source: NAVEDTRA 14081 (limits.md)."""
    asked = demand(of(55_000, "lb"), of("1.5", "g"))
    assert asked == of(82_500, "lbf")
    assert number_needed(asked, of(11_000, "lbf"), Fraction(1)) == 8
    assert number_needed(asked, of(11_000, "lbf"), Fraction(1), in_pairs=True) == 8
    assert number_needed(of(66_001, "lbf"), of(11_000, "lbf"), Fraction(1), in_pairs=True) == 8
    assert number_needed(of(66_000, "lbf"), of(11_000, "lbf"), Fraction(1), in_pairs=True) == 6


@pytest.mark.parametrize(
    ("factors", "pounds"),
    [
        ({"forward": 9, "aft": "1.5", "left": 3, "right": 3, "up": 3}, [9000, 1500, 3000, 3000, 3000]),
        (
            {"forward": 3, "aft": "1.5", "left": "1.5", "right": "1.5", "up": 2},
            [3000, 1500, 1500, 1500, 2000],
        ),
    ],
    ids=["14 CFR 25.561(b)(3), ultimate", "TM 10-3930-673-10, appendix F"],
)
def test_demands_of_published_factors(factors: dict[str, str], pounds: list[int]) -> None:
    """A piece of 1000 lb asks for n x 1000 lbf in each direction."""
    stated = {LoadDirection(direction): gees(f"{n} g") for direction, n in factors.items()}
    rows = tie_down(of(1000, "lb"), stated, [])
    assert [row.direction for row in rows] == list(LoadDirection)
    assert [row.demand.value for row in rows] == pounds
    assert not any(row.met for row in rows)


def test_the_weaker_of_strap_and_fitting_counts() -> None:
    strap = Strap("s", force("2000 daN"), ALONG, force("9 kN"))
    assert strap_hold(strap, FORWARD).force == of(9, "kN")
    assert strap_hold(Strap("s", force("8 kN"), ALONG, force("9 kN")), FORWARD).force == of(8, "kN")
    assert strap_hold(Strap("s", force("8 kN"), ALONG), FORWARD).force == of(8, "kN")


def test_a_strap_counts_only_for_what_it_opposes() -> None:
    """Hand-worked: cargo at (10, 0, 1) m, fitting at (12, 1, 0): aft, right and below, so it opposes forward,
    left and up with squares 4/6, 1/6 and 1/6.
    """
    lay = lay_by_ends((of(10, "m"), of(0, "m"), of(1, "m")), (of(12, "m"), of(1, "m"), of(0, "m")))
    assert lay.squares == {FORWARD: Fraction(2, 3), LEFT: Fraction(1, 6), UP: Fraction(1, 6)}
    assert share(lay, AFT) == share(lay, RIGHT) == 0
    back = lay_by_ends((of(12, "m"), of(1, "m"), of(0, "m")), (of(10, "m"), of(0, "m"), of(1, "m")))
    assert back.squares == {AFT: Fraction(2, 3), RIGHT: Fraction(1, 6)}


def test_a_piece_with_four_straps() -> None:
    """Hand-worked: 500 kg at 1.5 g asks 7354.9875 N. Two straps of 5 kN at 45 degrees to the floor, along:
    each holds 5000 / sqrt 2 = 3535.5 N, together 7071.0 N: not enough forward. Up, four of them hold 14 142 N
    of 9806.65 N.
    """
    fore = lay_by_angles(Fraction(45), Fraction(0), [FORWARD, UP])
    back = lay_by_angles(Fraction(45), Fraction(0), [AFT, UP])
    straps = [Strap(f"s{n}", force("5 kN"), lay) for n, lay in enumerate((fore, fore, back, back))]
    factors = {FORWARD: gees("1.5 g"), UP: gees("2 g")}
    forward, up = tie_down(of(500, "kg"), factors, straps)
    assert forward.demand.si == Fraction("7354.9875")
    assert [hold.strap for hold in forward.straps] == ["s0", "s1"]
    assert forward.held.down() == "7 071 N"
    assert not forward.met
    assert up.held.down() == "14 142 N"
    assert up.met
    assert forward.reckoning == ("500 kg × 1.5 g = 7 354.9… N; held by s0 3 535.5… N + s1 3 535.5… N")
    assert tie_down(of(500, "kg"), factors, [])[0].reckoning.endswith("held by nothing")
    assert straps_needed(of(500, "kg"), factors, straps[0]) == {FORWARD: 3, UP: 3}
    assert straps_needed(of(500, "kg"), factors, straps[0], in_pairs=True) == {FORWARD: 4, UP: 4}


def test_friction_counts_for_nothing_unless_the_data_says_so() -> None:
    """Hand-worked: 30 % of 500 kg x g0 is 1470.9975 N; with 7071.0 N it is enough for 7354.9875 N."""
    strap = Strap("s", force("10 kN"), lay_by_angles(Fraction(45), Fraction(0), [FORWARD, UP]))
    factors = {FORWARD: gees("1.5 g"), UP: gees("0.1 g")}
    assert not tie_down(of(500, "kg"), factors, [strap])[0].met
    forward, up = tie_down(of(500, "kg"), factors, [strap], of(30, "%"))
    assert forward.friction.si == Fraction("1470.9975")
    assert forward.met
    assert up.friction.si == 0
    assert forward.reckoning.endswith("held by s 7 071.0… N + friction 1 470.9… N")


def test_no_number_of_straps_is_enough_that_hold_nothing() -> None:
    assert number_needed(of(1, "N"), of(5, "kN"), Fraction(0)) is None
    assert number_needed(of(0, "N"), of(5, "kN"), Fraction(0)) == 0


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match="not both"):
        lay_by_angles(Fraction(0), Fraction(0), [FORWARD, AFT])
    with pytest.raises(ValueError, match="0 to 90"):
        cosine_squared(Fraction(91))
    point = (of(1, "m"), of(1, "m"), of(1, "m"))
    with pytest.raises(ValueError, match="two ends"):
        lay_by_ends(point, point)


DEGREES = st.fractions(0, 90, max_denominator=100)


@settings(deadline=None)
@given(DEGREES)
def test_cosines_are_bounds_from_below_and_close(degrees: Fraction) -> None:
    """Against the floating-point library as an independent answer."""
    bound = cosine_squared(degrees)
    assert abs(float(bound) - math.cos(math.radians(degrees)) ** 2) < 1e-14
    total = bound + sine_squared(degrees)
    assert 1 - Fraction(1, 10**28) < total <= 1


@settings(deadline=None)
@given(st.fractions(0, 10**6))
def test_root_is_a_bound_from_below_and_close(square: Fraction) -> None:
    answer = root(square)
    assert answer**2 <= square < (answer + Fraction(1, 10**29)) ** 2
    assert root(answer**2) == answer


@settings(deadline=None)
@given(DEGREES, DEGREES, st.integers(1, 10**6), st.integers(1, 50_000))
def test_number_needed_is_enough_and_one_less_is_not(
    v: Fraction, h: Fraction, asked: int, rating: int
) -> None:
    part = share(lay_by_angles(v, h, [FORWARD]), FORWARD)
    count = number_needed(of(asked, "N"), of(rating, "N"), part)
    if count is None:
        assert part == 0
        return
    assert count * rating * part >= asked
    assert (count - 1) * rating * part < asked


LAYS = st.builds(lay_by_angles, DEGREES, DEGREES, st.sampled_from([[FORWARD, UP], [AFT, LEFT, UP], [RIGHT]]))
STRAPS = st.lists(
    st.tuples(LAYS, st.integers(1, 30_000), st.none() | st.integers(1, 30_000)), min_size=1, max_size=5
)


def made(straps: list[tuple[Lay, int, int | None]]) -> list[Strap]:
    return [
        Strap(
            f"s{n}", Stated(of(rating, "N"), None), lay, Stated(of(fitting, "N"), None) if fitting else None
        )
        for n, (lay, rating, fitting) in enumerate(straps)
    ]


@settings(deadline=None)
@given(STRAPS, st.integers(1, 3000), st.data())
def test_a_strap_less_or_a_weaker_one_never_holds_more(
    drawn: list[tuple[Lay, int, int | None]], kilograms: int, data: st.DataObject
) -> None:
    mass: Quantity = of(kilograms, "kg")
    factors = {direction: gees("1.5 g") for direction in LoadDirection}
    straps = made(drawn)
    which = data.draw(st.integers(0, len(straps) - 1))
    lay, rating, fitting = drawn[which]
    weaker = made([*drawn[:which], (lay, max(1, rating // 2), fitting), *drawn[which + 1 :]])
    for full, less, weak in zip(
        tie_down(mass, factors, straps),
        tie_down(mass, factors, straps[:which] + straps[which + 1 :]),
        tie_down(mass, factors, weaker),
        strict=True,
    ):
        assert less.held <= full.held
        assert weak.held <= full.held
        assert full.met is (full.held >= full.demand)
