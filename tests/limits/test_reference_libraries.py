"""The same answers from general-purpose libraries that know nothing of holds: SciPy and Pint."""

from __future__ import annotations

import math
import random
from fractions import Fraction

import numpy
import pytest
from pint import UnitRegistry
from scipy.integrate import quad
from scipy.optimize import linprog, minimize_scalar

from procgen.limits import position_table
from procgen.limits.described import limits_of
from procgen.limits.doorway import longest
from procgen.limits.linear import largest_sum
from procgen.limits.stability import stance
from procgen.limits.tiedown import lay_by_angles
from procgen.limits.zone_most import zone_most
from procgen.limits.zones import check_load, placed, rows
from procgen.model.stated import Span1, Stated
from procgen.model.words import LoadDirection
from procgen.results.load_limits import CombinedLimit, Placed
from procgen.results.packages import CrossSection, Doorway
from procgen.results.stability import Gear, Mass
from procgen.units import UNITS, of
from tests.support import demo, demo_hold


@pytest.mark.parametrize("seed", range(40))
def test_largest_sum_is_that_of_linprog(seed: int) -> None:
    """SciPy's linprog (HiGHS) on random programs whose optimum is bounded."""
    drawn = random.Random(seed)
    count, limits = drawn.randint(1, 7), drawn.randint(1, 7)
    weights = [Fraction(drawn.randint(0, 40), 8) for _ in range(count)]
    table = [[Fraction(drawn.randint(-4, 16), 4) for _ in range(count)] for _ in range(limits)]
    table += [[Fraction(int(i == j)) for j in range(count)] for i in range(count)]
    bounds = [Fraction(drawn.randint(0, 4000), 4) for _ in range(limits + count)]
    ours = largest_sum(weights, table, bounds)
    total = sum((w * x for w, x in zip(weights, ours.values, strict=True)), Fraction(0))
    theirs = linprog(
        [-float(w) for w in weights], [[float(a) for a in row] for row in table], list(map(float, bounds))
    )
    assert theirs.status == 0
    assert float(total) == pytest.approx(-theirs.fun, rel=1e-9, abs=1e-7)


@pytest.mark.parametrize("name", sorted(demo().network.holds))
def test_the_most_of_a_zone_is_that_of_linprog(name: str) -> None:
    """The rows of every limit of a demonstration hold, given to linprog, cannot be filled further."""
    hold, types = demo_hold(name), demo().network.unit_types
    table = position_table(hold, types)
    most_of = zone_most(hold, types)
    assert set(most_of) == set(hold.zones)
    for zone, most in most_of.items():
        units = []
        for position, _ in most.masses:
            limit, code = max(
                (cell.limit.si, cell.unit_type)
                for cell in table.cells
                if cell.position == position and cell.limit is not None
            )
            units.append(placed(hold, types[code], position, of(limit, "kg")))
        lines = [row for limit in limits_of(hold) for row in rows(limit, units)]
        theirs = linprog(
            [-1.0] * len(units),
            [[float(part) for part in line.parts] for line in lines],
            [float(line.limit.quantity.si) for line in lines],
            bounds=[(0, float(one.mass.si)) for one in units],
        )
        assert theirs.status == 0
        assert float(most.total.si) == pytest.approx(-theirs.fun, rel=1e-9), zone


@pytest.mark.parametrize(
    ("low", "high"), [(10.0, 11.0), (10.4, 11.9), (9.0, 30.0), (11.56, 12.0), (10.9, 10.95)]
)
def test_the_part_of_a_unit_in_a_stretch_is_the_integral_of_its_mass(low: float, high: float) -> None:
    """Adaptive quadrature (QUADPACK, by SciPy) of the evenly spread mass of a unit of 1100 kg."""
    unit = Placed(
        "u", "41", of(1100, "kg"), Span1(of("10.20", "m"), of("11.75", "m")), Span1(of(0, "m"), of(1, "m"))
    )
    within = Span1(of(str(low), "m"), of(str(high), "m"))
    limit = CombinedLimit("stretch", "a stretch", Stated(of(9000, "kg"), None), (), within)
    (use,) = check_load([unit], [limit])
    integral, _ = quad(lambda _: 1100 / 1.55, max(low, 10.20), max(min(high, 11.75), low, 10.20))
    assert float(use.used.si) == pytest.approx(integral, abs=1e-9)


@pytest.mark.parametrize(("one", "other", "width"), [(2, 3, 0), (8, 3, 1), (5, 4, 1.5), (1.1, 2.4, 0.8)])
def test_the_corner_is_the_least_that_a_minimiser_finds(one: float, other: float, width: float) -> None:
    """L = min over a of (D cos a + B sin a - w) / (sin a cos a): bounded minimisation by SciPy."""
    found = minimize_scalar(
        lambda a: (one * math.cos(a) + other * math.sin(a) - width) / (math.sin(a) * math.cos(a)),
        bounds=(1e-6, math.pi / 2 - 1e-6),
        method="bounded",
        options={"xatol": 1e-12},
    )
    scale = 1000
    door = Doorway(of(Fraction(str(one)) * scale, "m"), of(2, "m"), of(10**7, "m"), of(0, "m"))
    depth = of(Fraction(str(other)) * scale, "m")
    section = CrossSection(((of(0, "m"), depth), (of(2, "m"), depth)))
    ours = longest(door, section, of(10**7, "m"), of(Fraction(str(width)) * scale, "m"), of(1, "m")).length
    assert ours is not None
    assert float(ours.si) / scale == pytest.approx(found.fun, abs=2e-6)
    assert float(ours.si) / scale <= found.fun + 1e-9, "never more than goes through"


_IN_PINT = {
    "kg": ("kilogram", "kilogram"),
    "t": ("tonne", "kilogram"),
    "lb": ("pound", "kilogram"),
    "cm": ("centimetre", "metre"),
    "mm": ("millimetre", "metre"),
    "in": ("inch", "metre"),
    "ft": ("foot", "metre"),
    "km/h": ("kilometre / hour", "metre / second"),
    "kt": ("knot", "metre / second"),
    "g": ("standard_gravity", "metre / second ** 2"),
    "daN": ("decanewton", "newton"),
    "kN": ("kilonewton", "newton"),
    "lbf": ("force_pound", "newton"),
    "lb/in": ("pound / inch", "kilogram / metre"),
    "lb/ft": ("pound / foot", "kilogram / metre"),
    "lb/ft2": ("pound / foot ** 2", "kilogram / metre ** 2"),
    "min": ("minute", "second"),
    "h": ("hour", "second"),
}


@pytest.mark.parametrize("symbol", sorted(_IN_PINT))
def test_every_unit_has_the_factor_that_pint_has(symbol: str) -> None:
    """Pint's own definitions, in decimal floating point to 15 digits."""
    name, base = _IN_PINT[symbol]
    theirs = UnitRegistry().Quantity(1.0, name).to(base).magnitude
    assert float(of(1, symbol).si) == pytest.approx(theirs, rel=1e-14)


def test_every_unit_but_the_base_ones_is_compared() -> None:
    assert set(UNITS) - set(_IN_PINT) == {"m", "m/s", "m/s2", "N", "kg/m", "kg/m2", "s", "%"}


@pytest.mark.parametrize(("floor", "along"), [(30, 30), (45, 20), (17, 63), (5, 85)])
def test_shares_of_a_strap_are_those_of_its_unit_vector(floor: int, along: int) -> None:
    """The direction of the strap as a vector, by floating point trigonometry."""
    v, h = math.radians(floor), math.radians(along)
    vector = {
        LoadDirection.FORWARD: math.cos(v) * math.cos(h),
        LoadDirection.LEFT: math.cos(v) * math.sin(h),
        LoadDirection.UP: math.sin(v),
    }
    squares = lay_by_angles(Fraction(floor), Fraction(along), tuple(vector)).squares
    for direction, share in vector.items():
        assert math.sqrt(float(squares[direction])) == pytest.approx(share, abs=1e-9)


@pytest.mark.parametrize("seed", range(10))
def test_the_nose_share_balances_moments(seed: int) -> None:
    """Two reactions that carry the weight and balance its moment: a 2 by 2 system, solved by NumPy."""
    drawn = random.Random(seed)
    nose, main = drawn.uniform(-5, 5), drawn.uniform(8, 30)
    mass, x = drawn.uniform(1e4, 2e5), drawn.uniform(6, 20)
    reactions = numpy.linalg.solve([[1.0, 1.0], [nose, main]], [mass, mass * x])
    gear = Gear(of(Fraction(nose), "m"), of(Fraction(main), "m"), Stated(of(5, "%"), None))
    ours = stance(gear, Mass.at("all", of(Fraction(mass), "kg"), of(Fraction(x), "m")))
    assert float(ours.nose_share) == pytest.approx(reactions[0] / mass, abs=1e-9)
