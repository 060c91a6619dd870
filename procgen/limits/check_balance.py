"""Check values of ground stability: weighed aircraft, and loads that shift or come aboard one by one."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from procgen.limits.check_cases import case
from procgen.limits.stability import stance, stances
from procgen.model.stated import Stated
from procgen.results.check_value import CheckValue
from procgen.results.stability import Gear, Mass
from procgen.units import Quantity, of


def nose_loads() -> Iterator[CheckValue]:
    """The load on the nose gear from the published centre of gravity, within what its rounding makes of it;
    then the centre after a shift, and after the last of several steps.
    """
    handbook = "nosewheel airplane, flight-study.com (after FAA-H-8083-1, memory)"
    theory = "EASA-style theory item, as reprinted at atplquestions.com"
    for words, mass, base, ahead, published, tolerance, source in (
        (
            "2006 lb, 78 in, centre 13.2 in ahead of the mains",
            of(2006, "lb"),
            "78",
            "13.2",
            "340",
            "1.3",
            handbook,
        ),
        ("3145 kg, 92 in, centre 83.7 in aft of the nose", of(3145, "kg"), "92", "8.3", "285", "1.8", theory),
    ):
        yield case("nose load", words, _nose_load(mass, base, ahead), published, tolerance, source)
    words = "two nose wheels of 500 kg, four main wheels of 6000 kg, 10 m, centre at 9.6 m"
    metres = Gear(of(0, "m"), of(10, "m"), Stated(of(4, "%"), None))
    standing = stance(metres, Mass.at("all", of(25_000, "kg"), of("9.6", "m")))
    theory = "EASA-style theory item, as worked at pprune.org"
    yield case("nose load", words, standing.nose_load, "1000", "0", theory)
    yield from _steps()


def _nose_load(mass: Quantity, base: str, ahead: str) -> Quantity:
    gear = Gear(of(0, "in"), of(base, "in"), Stated(of(5, "%"), None))
    return stance(gear, Mass.at("all", mass, of(Fraction(base) - Fraction(ahead), "in"))).nose_load


def _steps() -> Iterator[CheckValue]:
    gear = Gear(of(0, "in"), of(200, "in"), Stated(of(5, "%"), None))
    pound_inch = of(1, "lb").si * of(1, "in").si
    shift = Mass("from 150 in to 30 in", of(0, "lb"), -65 * 120 * pound_inch)
    shifted = stances(gear, Mass.at("airplane", of(7800, "lb"), of("81.5", "in")), [shift])[-1]
    words = "7800 lb at 81.5 in, 65 lb shifted from 150 to 30 in"
    source = "FAA-H-8083-25, weight shift (memory)"
    yield case("centre of gravity, shift", words, shifted.centre.to("in"), "80.5", "0", source)
    start = Mass("basic", of(5701, "lb"), 830_132 * pound_inch)
    rows = [
        Mass.at("row", of(m, "lb"), of(x, "in")) for m, x in ((600, 160), (600, 180), (600, 200), (200, 220))
    ]
    fuel = [Mass("fuel", of(m, "lb"), moment * pound_inch) for m, moment in ((741, 97_000), (1183, 199_000))]
    last = stances(gear, start, [*rows, *fuel])[-1]
    words, sheet = "the loading sum of table 6-1, after the last of six steps", "TM 55-1510-215-10, table 6-1"
    yield case("centre of gravity, steps", words, last.centre.to("in"), "155.2", "0.05", sheet)
