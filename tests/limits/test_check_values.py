"""Every check value agrees with its published answer, and the page says so."""

from __future__ import annotations

import math
from collections.abc import Iterable

import numpy
import pytest
from pint import UnitRegistry
from scipy.integrate import quad
from scipy.optimize import linprog, minimize_scalar

from procgen.limits import check_libraries as libraries
from procgen.pipeline.check_values import every_check_value
from procgen.report.check_values import check_values_page
from procgen.results.check_value import CheckValue
from tests.support import ROOT, demo

VALUES = every_check_value()


@pytest.mark.parametrize("value", VALUES, ids=lambda value: f"{value.what}: {value.case}")
def test_it_agrees(value: CheckValue) -> None:
    assert value.agrees, f"ours {float(value.ours)}, published {float(value.published)}"
    assert value.source


def test_each_case_stands_once() -> None:
    cases = [(value.what, value.case) for value in VALUES]
    assert sorted({case for case in cases if cases.count(case) > 1}) == []


def test_the_page_is_up_to_date() -> None:
    assert (ROOT / "docs" / "check-values.md").read_text("utf-8") == check_values_page(VALUES)


ASKED = {
    "area load with tare": "style items",
    "least floor limit": "style items",
    "running load": "EASA-style theory item",
    "load factor, civil": "14 CFR 25.561(b)(3), ultimate",
    "load factor, military air": "TM 10-3930-673-10, appendix F",
    "rounding up a count": "NAVEDTRA 14081",
    "tie-down share, 30 degrees": "direction cosines; the chart itself (memory)",
    "spreading": "FM 55-9, chapter 6",
    "eccentric load on four points": "MIL-STD-209K, appendix C",
    "adjacent pair": "TM 55-1680-358-12&P",
    "longest piece round a corner, no width": "standard calculus result, (a^(2/3) + b^(2/3))^(3/2)",
    "longest piece round a corner, width": "Moretti, College Mathematics Journal 33(3), 2002",
    "loading sum": "TM 55-1510-215-10, table 6-1",
    "nose share": "worked gear-load example",
    "push": "UK HSE push and pull",
    "unit, defined": "international definition (memory)",
    "unit load device": "trade textbook table of unit load devices",
    "contrast": "WCAG 2.2, 1.4.3",
    "plain value": "YAML 1.2.2, 10.3.2",
    "region of a finding": "OASIS SARIF 2.1.0",
}
"""The cases that the tables were asked to be held against from the start, by the source of each."""


SINCE_BY_SOURCE = ("style items (memory)", "item, as ", "theory item (memory)")
SINCE_BY_CASE = (
    "corridors 1 and",
    "corridors 27 and",
    "45 degrees to the floor",
    "60 degrees to the floor",
    "17 degrees to the floor",
    "after the last of six steps",
    "through 0 in",
    "1 ft in m",
)
"""What has one of those sources and was not asked for: found since."""


def asked(values: Iterable[CheckValue]) -> list[CheckValue]:
    """The cases that were asked for."""
    return [
        value
        for value in values
        if any(source in value.source for source in ASKED.values())
        and not any(words in value.source for words in SINCE_BY_SOURCE)
        and not any(words in value.case for words in SINCE_BY_CASE)
    ]


@pytest.mark.parametrize("what", ASKED)
def test_every_case_asked_for_is_there(what: str) -> None:
    assert [value for value in asked(VALUES) if ASKED[what] in value.source]


def test_at_least_as_many_were_found_since() -> None:
    first = asked(VALUES)
    assert len(VALUES) - len(first) >= len(first) >= 50


def test_the_published_numbers_that_were_asked_for_stand_in_the_table() -> None:
    """The numbers themselves, so that none is lost: one line of the request each."""
    numbers = {float(value.published) for value in VALUES}
    for line in (
        (1948.0, 6767.8, 21769.9, 786.5, 25721.9),
        (76, 115),
        (583,),
        (3000, 9000, 4000, 6000, 1500),
        (2000,),
        (8,),
        (75.0, 43.3, 50.0),
        (72, 160),
        (10667, 5333, 16000, 8000),
        (66,),
        (7.0234824,),
        (12.856318, 12.8927),
        (9625, 155.2),
        (5.92, 15.51),
        (196.1,),
        (0.45359237, 25.4, 1.852, 4.4482216152605, 9.80665),
        (1534, 1562, 1588),
        (4.542, 4.478),
    ):
        assert numbers.issuperset(line), line


def test_the_demonstration_has_the_published_base_and_mass() -> None:
    """Base K 1534 x 1562 mm, at most 1588 kg on it: trade textbook table of unit load devices (limits.md)."""
    on_base = [one for one in demo().network.unit_types.values() if one.base.code == "K"]
    assert {(one.base.length.down(), one.base.width.down()) for one in on_base} == {("1 534 mm", "1 562 mm")}
    assert max(one.max_gross.quantity for one in on_base).down() == "1 588 kg"


@pytest.mark.parametrize(("one", "other", "width", "answer"), libraries.CORNERS)
def test_scipy_minimises_to_the_corner(one: str, other: str, width: str, answer: str) -> None:
    d, b, w = float(one), float(other), float(width)
    found = minimize_scalar(
        lambda a: (d * math.cos(a) + b * math.sin(a) - w) / (math.sin(a) * math.cos(a)),
        bounds=(1e-6, math.pi / 2 - 1e-6),
        method="bounded",
        options={"xatol": 1e-12},
    )
    assert found.fun == pytest.approx(float(answer), abs=6e-7)


@pytest.mark.parametrize("program", libraries.PROGRAMS, ids=lambda program: program[0])
def test_linprog_finds_the_same_sum(
    program: tuple[str, tuple[str, ...], tuple[tuple[str, ...], ...], tuple[str, ...], str],
) -> None:
    _, weights, rows, bounds, answer = program
    found = linprog(
        [-float(w) for w in weights], [[float(a) for a in row] for row in rows], [float(b) for b in bounds]
    )
    assert -found.fun == pytest.approx(float(answer), abs=1e-6)


@pytest.mark.parametrize(("low", "high", "answer"), libraries.STRETCHES)
def test_quadrature_finds_the_same_part(low: str, high: str, answer: str) -> None:
    mass, start, end = map(float, libraries.UNIT)
    found, _ = quad(lambda _: mass / (end - start), max(float(low), start), min(float(high), end))
    assert found == pytest.approx(float(answer), abs=1e-6)


@pytest.mark.parametrize(("nose", "main", "mass", "x", "answer"), libraries.WEIGHINGS)
def test_numpy_balances_the_moments(nose: str, main: str, mass: str, x: str, answer: str) -> None:
    m, moment = float(mass), float(mass) * float(x)
    found = numpy.linalg.solve([[1.0, 1.0], [float(nose), float(main)]], [m, moment])
    assert found[0] == pytest.approx(float(answer), abs=1e-6)


_NAMES = {"kt": "knot", "m/s": "metre / second", "daN": "decanewton", "lbf": "force_pound"}
_NAMES |= {"lb/in": "pound / inch", "kg/m": "kilogram / metre", "lb": "pound", "kg": "kilogram"}
_NAMES |= {"in": "inch", "m": "metre"}


def test_pint_converts_to_the_same() -> None:
    registry: UnitRegistry[float] = UnitRegistry()
    for number, unit, to, answer in libraries.CONVERSIONS:
        found = registry.Quantity(float(number), _NAMES[unit]).to(_NAMES[to]).magnitude
        assert found == pytest.approx(float(answer), abs=6e-7), unit


@pytest.mark.parametrize(("floor", "along", "answers"), libraries.STRAPS)
def test_floating_point_cosines_give_the_same_shares(
    floor: int, along: int, answers: tuple[str, ...]
) -> None:
    v, h = math.radians(floor), math.radians(along)
    vector = (math.cos(v) * math.cos(h), math.cos(v) * math.sin(h), math.sin(v))
    assert [100 * share for share in vector] == pytest.approx([float(one) for one in answers], abs=6e-7)
