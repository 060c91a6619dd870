"""Section 6: what goes through the door."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.limits.angle_polynomials import COSINE, ONE, SINE, Clause, fails_at, plus, times
from procgen.limits.doorway import longest, package_table
from procgen.results.packages import CrossSection, Doorway, Longest
from procgen.units import of
from tests.limits.turning import Room, can_be_turned

FAR = 10**6
Number = float | int | str


def box(width: Number, height: Number = 2) -> CrossSection:
    """A hold as wide at the ceiling as at the floor."""
    across = of(Fraction(str(width)), "m")
    return CrossSection(((of(0, "m"), across), (of(Fraction(str(height)), "m"), across)))


def door(width: Number, thickness: Number = 0, from_end: Number = FAR, height: Number = 2) -> Doorway:
    return Doorway(*(of(Fraction(str(size)), "m") for size in (width, height, thickness, from_end)))


def piece(
    width: Number, through: Doorway, depth: Number, hold: Number = 2 * FAR, height: Number = 1
) -> Longest:
    sizes = [of(Fraction(str(size)), "m") for size in (hold, width, height)]
    return longest(through, box(depth), *sizes)


def millimetres(found: Longest) -> int:
    assert found.length is not None
    assert found.length.unit.symbol == "mm"
    assert found.length.value.denominator == 1
    return int(found.length.value)


def test_corner_of_two_corridors_without_width() -> None:
    """Corridors 2 and 3 wide: 7.0234824 (standard calculus result). A thick wall at the hold's end makes the
    corner; sizes are taken many thousand times, so that whole millimetres give all published places.
    """
    found = piece(0, door(200_000, thickness=10**7, from_end=0), 300_000)
    assert round(millimetres(found) / 10**8, 7) == 7.0234824
    assert found.way == "turned"


def test_corner_of_two_corridors_with_width() -> None:
    """Corridors 8 and 3, width 1: least over the angle 12.856318. Source: Moretti, College Mathematics
    Journal 33(3), 2002 (limits.md). At 31 degrees the same expression is 12.8927.
    """
    for one, other in ((80_000, 30_000), (30_000, 80_000)):
        found = piece(10_000, door(one, thickness=10**7, from_end=0), other)
        assert round(millimetres(found) / 10**7, 6) == 12.856318
    a = math.radians(31)
    expression = (3 * math.cos(a) + 8 * math.sin(a) - 1) / (math.sin(a) * math.cos(a))
    assert round(expression, 4) == 12.8927


def test_thin_wall_has_a_closed_form() -> None:
    """With t = 0 and room on both sides, L = B D / w: door 1 m, depth 1 m, width 0.5 m -> 2 m."""
    assert millimetres(piece("0.5", door(1), 1)) == 2000
    assert millimetres(piece("0.4", door("1.2"), "1.5")) == 4500


@pytest.mark.parametrize(
    ("width", "through", "depth"), [("0.5", "1", "1"), ("0.6", "1.2", "1"), ("0.7", "1", "1")]
)
def test_turning_in_the_door_is_never_worse_than_turning_inside(width: str, through: str, depth: str) -> None:
    """limits.md gives sin a = w/D, L = (B - w cos a)/sin a for t = 0: that is a piece turned only when all of
    it is inside. The search over places shows that a longer one goes in.
    """
    w, d, b = float(width), float(through), float(depth)
    inside = (b - w * math.sqrt(1 - (w / d) ** 2)) / (w / d)
    found = millimetres(piece(width, door(through), depth)) / 1000
    assert found > inside
    assert can_be_turned(Room(d, 0, b, 3, 3), (inside + found) / 2, w, 0.05, 24)


ROOMS = [
    (Room(1, 0, 0.8, 2, 3), 0.7),
    (Room(1, 0.3, 1, 0, 3), 0.5),
    (Room(1, 1, 1, 0, 4), 0.7),
    (Room(1, 0.1, 1, 0.05, 1.6), 0.4),
    (Room(1, 0.4, 1.1, 0.3, 1.4), 0.3),
]


@pytest.mark.parametrize(("room", "width"), ROOMS)
def test_a_search_over_places_agrees(room: Room, width: float) -> None:
    """Brute force: a piece seven per cent shorter is turned, one seven per cent longer is not, towards the
    end ahead. Holds are drawn so that this way round is the better one.
    """
    through = door(room.door, room.wall, room.behind)
    found = millimetres(piece(str(width), through, room.depth, room.behind + room.ahead)) / 1000
    assert can_be_turned(room, found * 0.93, width, 0.04, 30)
    assert not can_be_turned(room, found * 1.07, width, 0.04, 30)


def test_pieces_that_need_no_turn() -> None:
    """As wide as the door, it goes straight in as far as the wall; too wide to be turned in a shallow hold,
    it goes in long side first.
    """
    straight = piece("1.5", door("1.5", thickness=1), "1.6")
    assert (straight.way, millimetres(straight)) == ("straight", 1600)
    assert straight.why == "it reaches the far wall"
    sideways = piece("1.1", door("1.3", thickness=5), "1.1")
    assert (sideways.way, millimetres(sideways)) == ("sideways", 1300)


def test_pieces_that_do_not_go_in_say_why() -> None:
    assert piece("1.6", door("1.5"), 1).why == "no piece this wide goes in that is as long as wide"
    assert piece("1", door("1.5"), 1, height="2.1").why == "the door is 2 m high"
    low = longest(door("1.5"), box(1, "0.9"), of(9, "m"), of(1, "m"), of(1, "m"))
    assert (low.length, low.way, low.why) == (None, "", "the hold is 0.9 m high")


def test_what_stops_a_longer_piece_is_named() -> None:
    assert piece("0.5", door(1), 1).why == "it jams in the door at 30 degrees to the hold"
    short = piece("0.3", door("1.6", "0.1", "2"), "1.58", "6.58")
    assert short.why.startswith("its front meets the end of the hold")
    tiny = piece("0.1", door("1.6", "0.1", "2"), "1.58", "4")
    assert "hold" in tiny.why


def test_cross_section_gives_the_least_width_up_to_a_height() -> None:
    """Hand-worked: 1 m at the floor, 1.4 m at 0.4 m, 0.6 m at 1.2 m: 0.8 m is half-way down, to 1 m."""
    outline = CrossSection(
        tuple((of(h, "m"), of(w, "m")) for h, w in (("0", "1"), ("0.4", "1.4"), ("1.2", "0.6")))
    )
    widths = [outline.width_up_to(of(h, "m")) for h in ("0", "0.3", "0.8", "1", "1.2", "1.21")]
    assert [width.si if width else None for width in widths] == [
        1,
        1,
        1,
        Fraction("0.8"),
        Fraction("0.6"),
        None,
    ]
    with pytest.raises(ValueError, match="from the floor upwards"):
        CrossSection(((of(1, "m"), of(1, "m")), (of(0, "m"), of(1, "m"))))


def test_table_never_grows_with_width_or_height() -> None:
    outline = CrossSection(
        tuple((of(h, "m"), of(w, "m")) for h, w in (("0", "1.2"), ("0.5", "1.6"), ("1.1", "1.0")))
    )
    widths = [of(n, "mm") for n in range(100, 1700, 300)]
    heights = [of(n, "mm") for n in range(300, 1300, 300)]
    table = package_table(door("1.5", "0.1", "3", height=1), outline, of("6.5", "m"), widths, heights)
    lengths = [[row.length.value if row.length else 0 for row in rows] for rows in table.rows]
    assert len(lengths) == 4
    for row in lengths:
        assert row == sorted(row, reverse=True)
    for column in zip(*lengths, strict=True):
        assert list(column) == sorted(column, reverse=True)
    assert lengths[0][0] > 1600
    assert lengths[-1] == [0] * 6


SIZES = st.integers(300, 3000)


@settings(deadline=None, max_examples=10)
@given(
    st.lists(st.integers(500, 3000), min_size=2, max_size=5),
    SIZES,
    st.integers(50, 1500),
    st.lists(st.integers(50, 2200), min_size=2, max_size=2),
    st.integers(0, 300),
)
def test_longer_never_for_a_higher_piece_whatever_the_cross_section(
    widths: list[int], through: int, width: int, heights: list[int], wall: int
) -> None:
    """Narrow, wide and waisted outlines, 2 m high."""
    each = Fraction(2000, len(widths) - 1)
    outline = CrossSection(tuple((of(each * at, "mm"), of(across, "mm")) for at, across in enumerate(widths)))
    opening = Doorway(of(through, "mm"), of(2100, "mm"), of(wall, "mm"), of(1500, "mm"))
    low, high = (
        longest(opening, outline, of(7, "m"), of(width, "mm"), of(height, "mm")).length
        for height in sorted(heights)
    )
    assert high is None or (low is not None and high <= low)


@settings(deadline=None, max_examples=12)
@given(SIZES, st.integers(0, 1500), SIZES, st.integers(50, 3000), st.integers(0, 3000), st.integers(0, 300))
def test_longer_never_for_wider_thicker_shallower_or_a_shorter_hold(
    through: int, wall: int, depth: int, width: int, behind: int, more: int
) -> None:
    def best(w: int, d: int, t: int, b: int, x: int) -> Fraction:
        metres = [Fraction(size, 1000) for size in (d, 2000, t, behind, b, x, w)]
        d_, h_, t_, s_, b_, x_, w_ = (of(size, "m") for size in metres)
        section = CrossSection(((of(0, "m"), b_), (h_, b_)))
        found = longest(Doorway(d_, h_, t_, s_), section, x_, w_, of(1, "m"))
        return found.length.value if found.length else Fraction(0)

    hold = behind + through + 2500
    plain = best(width, through, wall, depth, hold)
    assert best(width + more, through, wall, depth, hold) <= plain
    assert best(width, through, wall + more, depth, hold) <= plain
    assert best(width, through, wall, max(1, depth - more), hold) <= plain
    assert best(width, through, wall, depth, hold - more) <= plain


@settings(deadline=None, max_examples=12)
@given(SIZES, st.integers(0, 1500), SIZES, st.integers(50, 2500))
def test_a_walk_over_the_angles_agrees(through: int, wall: int, depth: int, width: int) -> None:
    """In a hold without ends, in floating point: at each angle that the door does not simply let through, the
    piece fits as long as what sticks out of the hold, at the far wall, is no wider there than the door.
    """
    d, t, b, w = through / 1000, wall / 1000, depth / 1000, width / 1000
    found = piece(w, door(d, t), b)
    if w > min(d, b):
        assert found.way != "turned"
        return
    lets_through = math.asin(w / math.hypot(d, t)) + math.atan(t / d)
    least = math.inf
    for step in range(1, 1001):
        a = lets_through * step / 1000
        s, c = math.sin(a), math.cos(a)
        sticks_out = d * s * c if d * s < w or c < 1e-9 else (d - w * s) * s / c
        least = min(least, (b - w * c + sticks_out) / s)
    answer = max(least, b, d) * 1000
    assert answer - 1.001 - answer * 1e-3 <= millimetres(found) <= answer + 1e-3


POLYNOMIALS = st.lists(st.integers(-50, 50), min_size=6, max_size=6).map(
    lambda n: plus(
        times(n[0], SINE, SINE),
        times(n[1], SINE, COSINE),
        times(n[2], COSINE, COSINE),
        times(n[3], SINE, ONE),
        times(n[4], COSINE, ONE),
        times(n[5], ONE, ONE),
    )
)


@settings(deadline=None)
@given(st.lists(POLYNOMIALS, min_size=1, max_size=3), st.fractions(Fraction(1, 10), 1, max_denominator=40))
def test_a_clause_fails_just_where_a_walk_finds_it_failing(
    ways: list[tuple[int, ...]], end: Fraction
) -> None:
    def value(way: tuple[int, ...], u: Fraction) -> Fraction:
        return sum((a * u**k for k, a in enumerate(way)), Fraction(0))

    def fails(u: Fraction) -> bool:
        return all(value(way, u) < 0 for way in ways)

    found = fails_at(Clause("any", tuple(ways), end))
    walked = [end * step / 60 for step in range(61)]
    if found is None:
        assert not any(fails(u) for u in walked)
    else:
        assert 0 <= found <= end
        touches = any(abs(value(way, found)) < Fraction(1, 10**9) for way in ways)
        assert fails(found) or touches
