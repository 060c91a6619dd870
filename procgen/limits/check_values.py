"""Check values: cases with published answers, each reckoned by the functions that reckon the tables.

`(memory)` in a source marks a document that was not at hand when the value was written down. The cases of
mathematics and units are in `check_cases`, more published ones in `check_published`, answers of
general-purpose libraries in `check_libraries`.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from procgen.limits.angles import root
from procgen.limits.check_balance import nose_loads
from procgen.limits.check_cases import case, general_cases
from procgen.limits.check_libraries import library_cases
from procgen.limits.check_published import published_cases
from procgen.limits.contact import contact_uses, four_points, least_area_limit, most_cargo, spread
from procgen.limits.handmoves import hand_move, push_force
from procgen.limits.stability import centre, stance, total
from procgen.limits.tiedown import demand, lay_by_angles, number_needed
from procgen.limits.zones import least_spacing
from procgen.model.hand_moves import HandMoves
from procgen.model.stated import Stated
from procgen.model.words import LoadDirection
from procgen.results.check_value import CheckValue
from procgen.results.floor_contact import FloorLimits, Piece
from procgen.results.stability import Gear, Mass
from procgen.units import Quantity, of

_ATP = "FAA airline transport pilot knowledge-test style items"


def check_values() -> tuple[CheckValue, ...]:
    """Every check value of the limits: table by table, more published ones, libraries'."""
    return (
        *_floor(),
        *_factors(),
        *_tie_down(),
        *_spreading(),
        *_standing(),
        *_by_hand(),
        *general_cases(),
        *published_cases(),
        *library_cases(),
    )


def _floor() -> Iterator[CheckValue]:
    for length, width, limit, pallet, straps, published in (
        ("36", "48", 169, 47, 33, "1948.0"),
        ("76", "74", 176, 77, 29, "6767.8"),
        ("138.5", "97.6", 235, 219, 71, "21769.9"),
        ("33.5", "48.5", 76, 44, 27, "786.5"),
        ("143", "125.2", 209, 197, 66, "25721.9"),
    ):
        ours = most_cargo(of(limit, "lb/ft2"), of(length, "in"), of(width, "in"), of(pallet + straps, "lb"))
        words = f"{length} × {width} in, {limit} lb/ft2, pallet {pallet} lb, tie-downs {straps} lb"
        yield case("area load with tare", words, ours, published, "0.2", _ATP)
    for length, width, pallet, straps, mass, published in (
        ("48.5", "33.5", 44, 27, "786.5", "76"),
        ("39", "37", 37, 21, "1094.3", "115"),
    ):
        ours = least_area_limit(
            of(mass, "lb"), of(length, "in"), of(width, "in"), of(pallet + straps, "lb"), "lb/ft2"
        )
        words = f"{length} × {width} in, {mass} lb, pallet {pallet} lb, tie-downs {straps} lb; rounded up"
        yield case("least floor limit", words, ours, published, "0.5", _ATP)
    for kilograms, along, passes in ((700, "1.2", 1), (700, "1.1", 0), (760, "1.1", 0), (760, "1.2", 0)):
        piece = Piece(of(kilograms, "kg"), of(along, "m"), of(1, "m"))
        (use,) = contact_uses(piece, FloorLimits(running=Stated(of(630, "kg/m"), None)))
        words = f"{kilograms} kg on {along} m"
        if passes:
            yield case("running load", words, use.used, "583", "0.5", "EASA-style theory item")
        words = f"{words} at 630 kg/m: passes (1) or fails (0)"
        yield case("running load", words, Fraction(use.met), f"{passes}", "0", "EASA-style theory item")
    spacing = least_spacing(of(3000, "lb"), of("45.2", "lb/in"))
    yield case("adjacent pair, spacing", "3000 lb at 45.2 lb/in", spacing, "66", "0.5", "TM 55-1680-358-12&P")
    pound = of(3500, "lb").to("kg")
    yield case(
        "which of 1588 kg and 3500 lb governs", "3500 lb", pound, "1587.57", "0.005", "by the pound (memory)"
    )


def _factors() -> Iterator[CheckValue]:
    """The force that a factor asks of 1000 lb: the factor times 1000 lbf."""
    civil, military = "14 CFR 25.561(b)(3), ultimate", "TM 10-3930-673-10, appendix F"
    for words, factor, source in (
        ("up 3.0", "3.0", civil),
        ("forward 9.0", "9.0", civil),
        ("aft 1.5", "1.5", civil),
        ("side 3.0", "3.0", civil),
        ("side 4.0, seats", "4.0", civil),
        ("down 6.0", "6.0", civil),
        ("forward 3.0", "3.0", military),
        ("aft and lateral 1.5", "1.5", military),
        ("up 2.0", "2.0", military),
    ):
        asked = demand(of(1000, "lb"), of(factor, "g"))
        yield case("load factor", f"{words} on 1000 lb", asked, f"{Fraction(factor) * 1000}", "0", source)


def _tie_down() -> Iterator[CheckValue]:
    needed = number_needed(demand(of(55_000, "lb"), of("1.5", "g")), of(11_000, "lbf"), Fraction(1)) or 0
    words = "55 000 lb at 1.5 over 11 000 lb each"
    yield case("rounding up a count", words, Fraction(needed), "8", "0", "NAVEDTRA 14081")
    chart = "direction cosines; the chart itself (memory)"
    directions = (LoadDirection.FORWARD, LoadDirection.LEFT, LoadDirection.UP)
    for floor, along, published in (
        (30, 30, ("75.0", "43.3", "50.0")),
        (45, 45, ("50.0", "50.0", "70.7")),
        (60, 0, ("50.0", "0", "86.6")),
    ):
        squares = lay_by_angles(Fraction(floor), Fraction(along), directions).squares
        for direction, share in zip(directions, published, strict=True):
            ours = _share(squares.get(direction, Fraction(0)))
            words = f"{floor} degrees to the floor, {along} to x, {direction}"
            yield case("tie-down share", words, ours, share, "0.05", chart)


def _share(square: Fraction) -> Quantity:
    return of(root(square) * 100, "%")


def _spreading() -> Iterator[CheckValue]:
    plank = "FM 55-9, chapter 6"
    for thickness, published in ((0, "72"), (2, "160")):
        one, other = spread(of(12, "in"), of(6, "in"), of(thickness, "in"))
        words = f"12 × 6 in through {thickness} in, square inches"
        yield case("spreading", words, one.value * other.value, published, "0", plank)
    arms = (of(5, "in"), of(10, "in"))
    loads = four_points(of(40_000, "lb"), arms, (of(15, "in"), of(10, "in")))
    for index, (load, published) in enumerate(
        zip(sorted(loads, reverse=True), ("16000", "10667", "8000", "5333"), strict=True), 1
    ):
        words = f"40 000 lb, arms 5/10 and 15/10, point {index} by load"
        yield case("eccentric load on four points", words, load, published, "0.5", "MIL-STD-209K, appendix C")


def _standing() -> Iterator[CheckValue]:
    pound_inch = of(1, "lb").si * of(1, "in").si
    rows = [Mass("basic", of(5701, "lb"), 830_132 * pound_inch)]
    rows += [
        Mass.at("row", of(m, "lb"), of(x, "in")) for m, x in ((600, 160), (600, 180), (600, 200), (200, 220))
    ]
    rows += [Mass("fuel", of(m, "lb"), moment * pound_inch) for m, moment in ((741, 97_000), (1183, 199_000))]
    everything, sheet = total("all", rows), "TM 55-1510-215-10, table 6-1"
    yield case("loading sum", "basic, four rows, two fuel loads: mass", everything.mass, "9625", "0", sheet)
    arm = centre(everything).to("in")
    yield case("loading sum", "the same: centre of gravity", arm, "155.2", "0.05", sheet)
    gear = Gear(of(0, "m"), of("13.35", "m"), Stated(of(5, "%"), None))
    for arm_text, published in (("0.79", "5.92"), ("2.07", "15.51")):
        at = of(Fraction("13.35") - Fraction(arm_text), "m")
        share = stance(gear, Mass.at("all", of(1000, "kg"), at)).nose_share
        words = f"wheelbase 13.35 m, mains to centre of gravity {arm_text} m"
        yield case("nose share", words, of(share * 100, "%"), published, "0.005", "worked gear-load example")
    yield from nose_loads()


def _by_hand() -> Iterator[CheckValue]:
    force = push_force(of(1000, "kg"), of(2, "%"), of(0, "%"))
    source = "UK HSE push and pull assessment (at least 2 % of the load on good surfaces)"
    yield case("push force", "1000 kg at 2 %", force, "196.1", "0.05", source)
    source = "by hand, from UK HSE push and pull figures: start 200 / 150 N, keep moving 100 / 70 N"
    for words, starting, moving, published in (
        ("1000 kg at 2 % by people of 200 N and 100 N", 200, 100, "2"),
        ("1000 kg at 2 % by people of 150 N and 70 N", 150, 70, "3"),
    ):
        two = Stated(of(2, "%"), None)
        leave = HandMoves(
            two, two, Stated(of(0, "%"), None), Stated(of(starting, "N"), None), Stated(of(moving, "N"), None)
        )
        crew = Fraction(hand_move(leave, of(1000, "kg")).crew or 0)
        yield case("people to push", words, crew, published, "0", source)
