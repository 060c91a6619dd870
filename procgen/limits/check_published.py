"""More check values from published material: floor items, pairs, ladders, programs, centres."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from procgen.limits.angles import cosine_squared, root, sine_squared
from procgen.limits.check_cases import case, least_length
from procgen.limits.contact import contact_uses, least_area_limit, most_cargo
from procgen.limits.linear import largest_sum
from procgen.limits.stability import stances
from procgen.limits.tiedown import lay_by_angles
from procgen.limits.zones import check_load
from procgen.model.stated import Span1, Stated
from procgen.model.words import LoadDirection
from procgen.results.check_value import CheckValue
from procgen.results.floor_contact import FloorLimits, Piece
from procgen.results.load_limits import PairLimit, Placed
from procgen.results.stability import Gear, Mass
from procgen.units import of

_ATP = "FAA airline transport pilot knowledge-test style items (memory)"
_EASA = "EASA-style theory item"


def published_cases() -> Iterator[CheckValue]:
    """Every one of them, floor first."""
    yield from _pallets()
    yield from _floor_items()
    yield from _pairs()
    yield from _shares()
    yield from _at_an_angle()
    yield from _ladders()
    yield from _programs()
    yield from _centres()
    yield from _containers()


def _pallets() -> Iterator[CheckValue]:
    for length, width, limit, pallet, straps, published in (
        ("81", "83", 180, 82, 31, "8290.8"),
        ("87.7", "116.8", 175, 137, 49, "12262.4"),
        ("98.7", "78.9", 183, 161, 54, "9681.5"),
        ("36.5", "48.5", 112, 45, 29, "1302.8"),
        ("42.6", "48.7", 121, 47, 33, "1663.2"),
    ):
        tare = of(pallet + straps, "lb")
        words = f"{length} × {width} in, {limit} lb/ft2, pallet {pallet} lb, tie-downs {straps} lb"
        ours = most_cargo(of(limit, "lb/ft2"), of(length, "in"), of(width, "in"), tare)
        yield case("area load with tare", words, ours, published, "0.2", _ATP)
    for length, width, pallet, straps, mass, published in (
        ("78.9", "98.7", 161, 54, "9681.5", "183"),
        ("116.8", "87.7", 137, 49, "12262.4", "175"),
    ):
        tare = of(pallet + straps, "lb")
        words = f"{length} × {width} in, {mass} lb, pallet {pallet} lb, tie-downs {straps} lb; rounded up"
        ours = least_area_limit(of(mass, "lb"), of(length, "in"), of(width, "in"), tare, "lb/ft2")
        yield case("least floor limit", words, ours, published, "0.5", _ATP)


def _floor_items() -> Iterator[CheckValue]:
    """Running loads as cut to whole kilograms; masses on a footprint; the pallet that just carries it."""
    reprint = f"{_EASA}, as worked at furious-atpl.com"
    for kilograms, along, published in ((700, "1.1", "636"), (760, "1.1", "690"), (760, "1.2", "633")):
        piece = Piece(of(kilograms, "kg"), of(along, "m"), of(1, "m"))
        (use,) = contact_uses(piece, FloorLimits(running=Stated(of(630, "kg/m"), None)))
        yield case("running load", f"{kilograms} kg on {along} m", use.used, published, "1", reprint)
    memory = f"{_EASA} (memory)"
    for limit, side, published in (("400", "0.5", "100"), ("650", "0.8", "416")):
        ours = most_cargo(of(limit, "kg/m2"), of(side, "m"), of(side, "m"))
        yield case("area load", f"{limit} kg/m2 on {side} × {side} m", ours, published, "0", memory)
    for length, width, passes in (("0.4", "2", 1), ("0.3", "2", 0)):
        piece = Piece(of(600, "kg"), of(length, "m"), of(width, "m"))
        (use,) = contact_uses(piece, FloorLimits(area=Stated(of(750, "kg/m2"), None)))
        words = f"600 kg on {length} × {width} m at 750 kg/m2: passes (1) or fails (0)"
        yield case("area load", words, Fraction(use.met), f"{passes}", "0", memory)


def _pairs() -> Iterator[CheckValue]:
    limit = PairLimit("pair", "neighbours 1 and 2", Stated(of(4300, "lb"), None), ("1", "2"))
    for one, other, passes in ((2300, 2000, 1), (2300, 2001, 0)):
        row = [
            Placed(name, name, of(mass, "lb"), Span1(of(at, "m"), of(at + 1, "m")), _ACROSS)
            for name, mass, at in (("1", one, 0), ("2", other, 1))
        ]
        (use,) = check_load(row, [limit])
        words = f"{one} lb and {other} lb, at most 4300 lb together: passes (1) or fails (0)"
        yield case("adjacent pair", words, Fraction(use.met), f"{passes}", "0", "TM 55-1680-358-12&P")


_ACROSS = Span1(of("-0.5", "m"), of("0.5", "m"))


def _shares() -> Iterator[CheckValue]:
    for floor, along in ((30, 30), (17, 63)):
        opposes = (LoadDirection.FORWARD, LoadDirection.LEFT, LoadDirection.UP)
        squares = lay_by_angles(Fraction(floor), Fraction(along), opposes).squares
        words = f"{floor} degrees to the floor, {along} to x: squares of the three, summed"
        tolerance = "0.00000000000000000000000001"
        ours = sum(squares.values(), Fraction(0))
        yield case("tie-down share", words, ours, "1", tolerance, "direction cosines")


def _at_an_angle() -> Iterator[CheckValue]:
    """The length that fits at one angle is never below the least over all angles."""
    s, c = root(sine_squared(Fraction(31))), root(cosine_squared(Fraction(31)))
    ours = (3 * c + 8 * s - 1) / (s * c)
    moretti = "Moretti, College Mathematics Journal 33(3), 2002"
    words = "corridors 8 and 3, width 1, at 31 degrees only"
    yield case("longest piece round a corner", words, ours, "12.8927", "0.00005", moretti)


def _ladders() -> Iterator[CheckValue]:
    book = "Stewart, Calculus, optimization exercise (memory)"
    for words, one, other, published, tolerance in (
        ("a fence 8 ft high, 4 ft from a wall: the shortest ladder", 8, 4, "16.65", "0.005"),
        ("a pipe from a hallway 9 ft wide into one of 6 ft", 9, 6, "21.07", "0.005"),
    ):
        ours = least_length(one, other, 0)
        yield case("longest piece round a corner", words, ours, published, tolerance, book)


def _programs() -> Iterator[CheckValue]:
    for words, weights, rows, bounds, published, source in (
        (
            "3x + 2y under 2x + y <= 100, x + y <= 80, x <= 40",
            (3, 2),
            ((2, 1), (1, 1), (1, 0)),
            (100, 80, 40),
            "180",
            "Winston, woodcarving example (memory)",
        ),
        (
            "5x + 4y + 3z under 2x + 3y + z <= 5, 4x + y + 2z <= 11, 3x + 4y + 2z <= 8",
            (5, 4, 3),
            ((2, 3, 1), (4, 1, 2), (3, 4, 2)),
            (5, 11, 8),
            "13",
            "Chvátal, first example of the simplex method (memory)",
        ),
        (
            "3x + y + 2z under x + y + 3z <= 30, 2x + 2y + 5z <= 24, 4x + y + 2z <= 36",
            (3, 1, 2),
            ((1, 1, 3), (2, 2, 5), (4, 1, 2)),
            (30, 24, 36),
            "28",
            "Cormen, Leiserson, Rivest and Stein, simplex example (memory)",
        ),
    ):
        exact = [Fraction(weight) for weight in weights]
        best = largest_sum(exact, [[Fraction(a) for a in row] for row in rows], [Fraction(b) for b in bounds])
        value = sum((w * x for w, x in zip(exact, best.values, strict=True)), Fraction(0))
        yield case("largest sum", words, value, published, "0", source)


def _centres() -> Iterator[CheckValue]:
    """The centre after something is added or taken out; published to a tenth of an inch."""
    book = "FAA-H-8083-25, weight addition and removal (memory)"
    gear = Gear(of(0, "in"), of(200, "in"), Stated(of(5, "%"), None))
    for words, mass, at, change, where, published in (
        ("6860 lb at 80.0 in, 140 lb added at 150 in", 6860, "80", 140, 150, "81.4"),
        ("6100 lb at 78.0 in, 100 lb taken out at 150 in", 6100, "78", -100, 150, "76.8"),
    ):
        moved = Mass.at("moved", of(change, "lb"), of(where, "in"))
        last = stances(gear, Mass.at("airplane", of(mass, "lb"), of(at, "in")), [moved])[-1]
        yield case("centre of gravity, change", words, last.centre.to("in"), published, "0.05", book)


def _containers() -> Iterator[CheckValue]:
    """Sizes and masses that are published in both systems: the conversion gives one from the other."""
    book = "trade textbook table of unit load devices; inches from memory"
    for words, value, unit, other, published in (
        ("base K, length 60.4 in", "60.4", "in", "mm", "1534"),
        ("base K, width 61.5 in", "61.5", "in", "mm", "1562"),
        ("most of an LD3, 3500 lb (1588 kg is above it)", "3500", "lb", "kg", "1588"),
    ):
        yield case("unit load device", words, of(value, unit).to(other), published, "0.5", book)
