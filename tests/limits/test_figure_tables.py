"""The tables of sections 4, 5, 7 and 9: hand-worked figures, and what their why says."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.limits.floor_tables import floor_tables
from procgen.limits.hand_tables import crew_table, hand_moves_table
from procgen.limits.handmoves import crew_limits, hand_move
from procgen.limits.piece_tables import piece_tables
from procgen.limits.tie_down_tables import tie_down_table
from procgen.limits.tiedown import fitting_capacity, lay_by_angles
from procgen.limits.times import times_table
from procgen.limits.wind_tables import notes_table, wind_table
from procgen.model.hand_moves import HandMoves
from procgen.model.hold import Hold
from procgen.model.loads import Allowances
from procgen.model.stated import SourceRef, Stated
from procgen.model.words import LoadDirection
from procgen.pipeline.timing import path_length
from procgen.results.figures import Figure, FigureTable
from procgen.results.floor_contact import Piece
from procgen.results.work import Work, WorkKind
from procgen.units import Dimension, Quantity, of, quantity
from tests.support import demo, demo_hold

GO = SourceRef("GO", "8-1")


def ratio(text: str) -> Stated:
    return Stated(quantity(text, Dimension.RATIO), GO)


LEAVE = HandMoves(
    resistance_starting=ratio("3 %"),
    resistance_moving=ratio("2 %"),
    slope=ratio("2 %"),
    force_starting=Stated(of(200, "N"), GO),
    force_moving=Stated(of(100, "N"), GO),
    max_mass=Stated(of(1100, "kg"), GO),
)


def pushed(leave: HandMoves = LEAVE) -> Hold:
    return replace(demo_hold("SR-AFT"), hand_moves=leave)


def at(table: FigureTable, label: str, column: str) -> Figure:
    (row,) = [row for row in table.rows if label in " / ".join(row.labels)]
    return row.figures[table.columns.index(column)]


def test_crew_of_a_unit() -> None:
    """Hand-worked: 1000 kg x 9.80665 x 5 % = 490.3 N / 200 N: 3; x 4 % = 392.3 N / 100 N: 4; 4 counts."""
    table = hand_moves_table(pushed(), demo().network.unit_types, [of(1000, "kg")])
    crew = at(table, "1 000 kg", "crew")
    assert (crew.count, crew.governs, crew.shown) == (4, "to keep it moving", "4 people")
    assert [(other.title, other.value) for other in crew.others] == [("to start it", "3 people")]
    assert at(table, "1 000 kg", "to start it").shown == "491 N"
    assert GO in crew.sources


def test_every_unit_type_that_fits_is_listed_empty_and_full() -> None:
    table = hand_moves_table(pushed(), demo().network.unit_types)
    assert [row.labels[0] for row in table.rows] == [
        "AKH empty",
        "AKH at its maximum",
        "PKC empty",
        "PKC at its maximum",
    ]
    too_heavy = at(table, "AKH at its maximum", "crew")
    assert too_heavy.count is None
    assert too_heavy.reasons == ("1134 kg is above 1 100 kg, the most that may be moved by hand",)


def test_what_a_crew_may_move() -> None:
    """Hand-worked: 2 x 100 N / (9.80665 x 0.04) = 509.8 kg; 2 x 200 / (9.80665 x 0.05) = 815.7 kg."""
    table = crew_table(pushed())
    two = at(table, "2 people", "at most")
    assert (two.shown, two.governs) == ("509 kg", "to keep it moving")
    assert [other.value for other in two.others] == ["815 kg", "1 100 kg"]
    assert at(table, "8 people", "at most").governs == "the hold's own cap"
    for row, crew in zip(table.rows, (2, 3, 4, 6, 8), strict=True):
        most = row.figures[0].number
        assert most is not None
        assert (hand_move(LEAVE, most).crew or 99) <= crew


def test_hold_without_leave_says_so_instead_of_a_number() -> None:
    for table in (
        hand_moves_table(demo_hold("SR-AFT"), demo().network.unit_types),
        crew_table(demo_hold("SR-AFT")),
    ):
        assert table.rows == ()
        assert table.remarks == ("The hold does not allow units to be moved by hand.",)
    with_mass = hand_moves_table(demo_hold("SR-AFT"), {}, [of(500, "kg")])
    assert at(with_mass, "500 kg", "crew").reasons == ("the hold does not allow units to be moved by hand",)


def test_floor_tables() -> None:
    """Hand-worked: 732 kg/m2 x 0.6 m x 0.6 m = 263.5 kg; with a 20 mm board 0.64 m: 299.8 kg; 1 m on 20 mm:
    760 kg/m x 1.04 m = 790.4 kg (area 791.7 kg). Foot of 10 cm: 4900 x 0.01 = 49 kg; on 50 mm 196, so 180.
    """
    stated, footprints, feet = floor_tables(demo_hold("SR-AFT"))
    assert at(stated, "one foot", "at most").shown == "180 kg"
    assert at(footprints, "60 cm", "without a board").shown == "263 kg"
    assert at(footprints, "60 cm", "on a board of 20 mm").shown == "299 kg"
    metre = at(footprints, "100 cm", "on a board of 20 mm")
    assert (metre.shown, metre.governs, metre.others[0].value) == ("790 kg", "running load", "791 kg")
    assert at(feet, "10 cm", "without a board").shown == "49 kg"
    assert at(feet, "10 cm", "on a board of 50 mm").governs == "the most on one foot"


def test_piece_on_its_feet() -> None:
    """By hand: 600 kg on 1.2 m x 0.8 m: 500 kg/m, 625 kg/m2; four feet of 10 x 10 cm: 15 000 kg/m2, 150 kg
    a foot. A board of t under each: 150 kg / (0.1 + 2t)^2 <= 4900 kg/m2 from t = 37.5 mm: 38 mm.
    """
    piece = Piece(of(600, "kg"), of("1.2", "m"), of("0.8", "m"), 4, of(10, "cm"), of(10, "cm"))
    loads, needs = piece_tables(demo_hold("SR-AFT"), piece)
    used = {row.labels[0]: (row.figures[0].shown, row.figures[0].met) for row in loads.rows}
    assert used == {
        "running load": ("500 kg/m", True),
        "area load": ("625 kg/m2", True),
        "contact load": ("15 000 kg/m2", False),
        "load on one foot": ("150 kg", True),
    }
    assert not loads.met
    assert at(needs, "board under each foot", "at least").shown == "38 mm"
    assert at(needs, "feet", "at least").count == 4
    assert at(needs, "bearers", "at least").count == 2
    assert at(needs, "length of floor", "at least").shown == "0.79 m"


def test_piece_larger_than_the_floor_and_piece_on_needles() -> None:
    long = Piece(of(100, "kg"), of(7, "m"), of("0.8", "m"))
    loads, _ = piece_tables(demo_hold("SR-AFT"), long)
    assert at(loads, "length along the hold", "used").met is False
    needles = Piece(of(3000, "kg"), of("0.3", "m"), of("0.3", "m"), 3, of(1, "mm"), of(1, "mm"))
    _, needs = piece_tables(demo_hold("SR-AFT"), needles)
    board = at(needs, "board", "at least")
    assert (board.number, board.met) == (None, False)
    assert "more or larger feet" in board.reasons[0]


def test_straps_needed() -> None:
    """Hand-worked, SR-AFT, 500 kg at 45 and 45 degrees: shares 50 %, 50 %, 70.7 %. A ring (4.4 kN along and
    across, 8.9 kN up) is certain of 1 / (0.5 / 4.4 + 0.5 / 4.4 + 0.7071 / 8.9) = 3.260 kN, less than the
    strap's 8.9 kN. Forward 500 x 1.5 g = 7355 N / 1630 N: 5, in pairs 6; left 6374 N: 4; up 9807 / 2305: 6.
    """
    table = tie_down_table(demo_hold("SR-AFT"), [of(500, "kg")], ["cargo-strap"], [(45, 45)])
    counts = {column: at(table, "45", column).count for column in table.columns}
    assert counts == {"forward": 6, "aft": 6, "left": 4, "right": 4, "up": 6, "in all": 12}
    forward = at(table, "45", "forward")
    assert forward.governs == "fitting: ring T1"
    assert [(other.title, other.value) for other in forward.others] == [("strap: cargo strap", "8.90 kN")]
    assert {str(source) for source in forward.sources} == {"WB 2-1", "WB 6-1"}


def test_friction_counts_where_the_data_give_it() -> None:
    """500 kg x 0.3 = 1471 N less: 5884 N / 1630 N: 4 forward instead of 6; up stays."""
    hold = demo_hold("SR-AFT")
    assert hold.tie_down is not None
    rubbing = replace(hold, tie_down=replace(hold.tie_down, friction=ratio("30 %")))
    table = tie_down_table(rubbing, [of(500, "kg")], ["cargo-strap"], [(45, 45)])
    assert (at(table, "45", "forward").count, at(table, "45", "up").count) == (4, 6)
    assert "less friction" in at(table, "45", "forward").reckoning


def test_strap_flat_on_the_floor_holds_nothing_up() -> None:
    table = tie_down_table(demo_hold("SR-AFT"), [of(100, "kg")], ["cargo-strap"], [(0, 45)])
    assert at(table, "100 kg", "up").reasons == ("such a strap holds nothing up",)
    assert at(table, "100 kg", "in all").met is False
    assert tie_down_table(replace(demo_hold("SR-AFT"), tie_down=None)).rows == ()


ANGLE = st.integers(0, 90)


@settings(deadline=None, max_examples=40)
@given(ANGLE, ANGLE, st.lists(st.integers(1, 9000), min_size=3, max_size=3), st.integers(0, 2))
def test_a_fitting_is_never_counted_beyond_its_ratings(
    to_floor: int, to_x: int, ratings: list[int], more: int
) -> None:
    """In no direction beyond its rating; straight, the rating itself; never less for a higher one."""
    directions = (LoadDirection.FORWARD, LoadDirection.LEFT, LoadDirection.UP)
    lay = lay_by_angles(Fraction(to_floor), Fraction(to_x), directions)
    rating = {d: Stated(of(n, "N"), None) for d, n in zip(directions, ratings, strict=True)}
    most = fitting_capacity(rating, lay)
    for direction, square in lay.squares.items():
        assert most.si**2 * square <= rating[direction].quantity.si ** 2
        if square == 1:
            assert most.si <= rating[direction].quantity.si <= most.si * (1 + Fraction(1, 10**20))
    better = {**rating, directions[more]: Stated(of(ratings[more] + 500, "N"), None)}
    assert fitting_capacity(better, lay) >= most
    unrated = {d: rating[d] for d in directions if d is not directions[more]}
    if lay.squares[directions[more]] > 0:
        assert fitting_capacity(unrated, lay).si == 0


def test_wind_in_every_unit_and_the_stricter_counts() -> None:
    """40 kt x 1852 / 3600 = 20.57 m/s = 74.08 km/h, cut; station K1B: 35 kt."""
    table = wind_table(demo_hold("SR-AFT"), list(demo().network.stations.values()))
    rows = {(row.labels[1], row.labels[2]): [figure.shown for figure in row.figures] for row in table.rows}
    assert rows["to open it", "any"] == ["40 kt", "20.5 m/s", "74.0 km/h"]
    assert rows["to open it", "K1B"] == ["35 kt", "18.0 m/s", "64.8 km/h"]
    figure = next(row for row in table.rows if row.labels[2] == "K1B").figures[0]
    assert figure.governs.startswith("station K1B")
    assert [(other.title, other.value) for other in figure.others] == [("the door's own", "40 kt")]


def test_notes_are_data_with_their_source() -> None:
    (goods, live) = notes_table(demo_hold("SR-AFT")).rows
    assert goods.labels == ("dangerous goods", "Dry ice at most 100 kg in this hold.")
    assert [str(source) for source in live.sources] == ["GO 10-2"]


ALLOWED = Allowances(of(6, "s"), of(5, "s"), of(45, "s"), quantity("0.4 m/s", Dimension.SPEED))


def test_times_of_a_cycle() -> None:
    """Hand-worked: 45 s + 2 x 6 s + 3 m / 0.3 m/s = 67 s."""
    work = [
        Work("u1", WorkKind.PRESENT, "u1"),
        Work("u1", WorkKind.HAND, "locks", 2),
        Work("u1", WorkKind.DRIVE, "u1", path=of(3, "m"), speed=quantity("0.3 m/s", Dimension.SPEED)),
    ]
    table = times_table("t", "Time", work, ALLOWED)
    assert at(table, "u1", "in all").shown == "67 s"
    assert at(table, "in all", "in all").reckoning == "12 s + 45 s + 10 s = 67 s"
    assert at(table, "u1", "driving").reckoning == "u1 3 m: 10 s = 10 s"


def test_time_of_a_loose_load() -> None:
    """Hand-worked: two loads of 15 min, and a net fitted in 6 s."""
    work = [
        Work("u1", WorkKind.STOW, "u1"),
        Work("u1", WorkKind.HAND, "net"),
        Work("u2", WorkKind.STOW, "u2"),
    ]
    table = times_table("t", "Time", work, replace(ALLOWED, stow=of(15, "min")))
    assert at(table, "u1", "in all").shown == "906 s"
    assert at(table, "in all", "in all").reckoning == "6 s + 1 800 s = 1 806 s"
    assert at(table, "u2", "stowing").reckoning == "u2 15 min = 900 s"


@pytest.mark.parametrize(
    ("work", "allowances", "why"),
    [
        (Work("u1", WorkKind.STOW, "u1"), ALLOWED, "the station states no allowance for stowing"),
        (Work("u1", WorkKind.DRIVE, "d", path=of(1, "m")), ALLOWED, "the description states no speed for d"),
        (
            Work("u1", WorkKind.PUSH, "u1", path=of(1, "m")),
            replace(ALLOWED, push=None),
            "the station states no speed for pushing",
        ),
    ],
)
def test_what_is_not_stated_gives_no_time(work: Work, allowances: Allowances, why: str) -> None:
    table = times_table("t", "Time", [work, Work("u1", WorkKind.HAND, "lock")], allowances)
    assert at(table, "u1", "in all").reasons == (why,)
    assert at(table, "u1", "in all").number is None
    assert times_table("t", "Time", [work], None).rows == ()


def test_path_from_the_sill_to_the_far_position() -> None:
    """Hand-worked: from outside (half of 1.562 m right of the floor's edge at 0.85 m) to y = 0: 1.631 m; the
    middles of 44 and 41 are x = 16.66 m and 11.68 m: 4.98 m.
    """
    hold, width = demo_hold("SR-AFT"), Fraction("1.562")
    assert path_length(hold, ("outside", "44"), width) == of("1.631", "m")
    assert path_length(hold, ("44", "43", "42", "41"), width) == of("4.98", "m")


@settings(deadline=None, max_examples=40)
@given(st.integers(2, 12), st.integers(0, 60), st.integers(1, 40), st.integers(50, 400))
def test_more_people_never_move_less_and_crew_and_most_agree(
    crew: int, slope: int, resistance: int, force: int
) -> None:
    leave = replace(
        LEAVE,
        slope=Stated(of(slope, "%"), None),
        resistance_moving=Stated(of(resistance, "%"), None),
        force_moving=Stated(of(force, "N"), None),
        max_mass=None,
    )
    most = min(cap.mass for cap in crew_limits(leave, crew))
    assert most <= min(cap.mass for cap in crew_limits(leave, crew + 1))
    assert hand_move(leave, most).crew == crew
    assert (hand_move(leave, Quantity(most.value + 1, most.unit)).crew or 0) > crew
