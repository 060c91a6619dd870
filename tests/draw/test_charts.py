"""Charts of limits: nothing with text overlaps or leaves the sheet, what they show is what the tables say."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import cache
from itertools import combinations, pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from procgen.draw.chart import Chart, Scale, ticks
from procgen.draw.chart_markup import chart_markup
from procgen.draw.cumulative import cumulative_chart
from procgen.draw.frame import SHEET_WIDTH
from procgen.draw.nose_share import nose_share_chart
from procgen.draw.package_chart import package_chart
from procgen.draw.section_chart import section_chart
from procgen.limits import position_table
from procgen.limits.zones import placed
from procgen.model.hold import Hold
from procgen.model.loads import CumulativeLine
from procgen.model.stated import Stated
from procgen.model.words import LoadDirection
from procgen.results.load_limits import Placed
from procgen.results.packages import Longest, PackageTable
from procgen.results.stability import Gear, HoldOrder, Stance
from procgen.units import of
from tests.support import demo, demo_hold


def own(hold: Hold) -> tuple[Placed, ...]:
    """Each position with the first unit type that it takes, at its limit."""
    types = demo().network.unit_types
    found: dict[str, Placed] = {}
    for cell in position_table(hold, types).cells:
        if cell.limit is not None and cell.position not in found:
            found[cell.position] = placed(hold, types[cell.unit_type], cell.position, cell.limit)
    return tuple(found.values())


@cache
def cumulative(name: str, unit: str = "kg") -> Chart:
    hold = demo_hold(name)
    (line,) = hold.cumulative.values()
    return cumulative_chart(hold, line, own(hold), unit)


def table(lengths: dict[str, list[int | None]]) -> PackageTable:
    """Heights in words to lengths in mm for widths of 300, 600 ... mm."""
    return PackageTable(
        tuple(
            tuple(
                Longest(
                    of(300 * n, "mm"),
                    of(height, "mm"),
                    of(length, "mm") if length is not None else None,
                    "turned",
                    "it jams in the door",
                )
                for n, length in enumerate(row, start=1)
            )
            for height, row in lengths.items()
        )
    )


def section(name: str) -> Chart:
    hold, network = demo_hold(name), demo().network
    assert hold.cross_section is not None
    return section_chart(hold, hold.cross_section, network.contours, network.unit_types)


def charts() -> Iterator[Chart]:
    for name in ("TR-FWD", "SR-AFT"):
        yield cumulative(name)
        yield cumulative(name, "lb")
        yield section(name)
    yield package_chart("door", table({"800": [6000, 4000, 2000], "1600": [5000, 3000, None]}))


def check(chart: Chart) -> None:
    boxes = [(text.words, text.box) for text in chart.texts]
    assert [(a, b) for (a, one), (b, two) in combinations(boxes, 2) if one.overlaps(two)] == []
    assert [words for words, box in boxes if not box.within(chart.sheet)] == []
    points = [point for stroke in chart.strokes for point in stroke.points]
    assert all(0 <= u <= chart.width and 0 <= v <= chart.height for u, v in points)
    assert chart.width == SHEET_WIDTH


@pytest.mark.parametrize("chart", list(charts()), ids=lambda chart: chart.title)
def test_nothing_with_text_overlaps_or_leaves_the_sheet(chart: Chart) -> None:
    check(chart)


@pytest.mark.parametrize("chart", list(charts()), ids=lambda chart: chart.title)
def test_a_chart_is_told_in_words_and_written_one_element_a_line(chart: Chart) -> None:
    svg = chart_markup(chart)
    root = ET.fromstring(svg)
    assert root.findtext("title")
    assert (root.findtext("desc") or "").endswith(".")
    assert all(line.count("<") <= 4 for line in svg.splitlines())
    assert svg == chart_markup(chart)


def test_the_cumulative_line_stands_at_its_points_over_its_positions() -> None:
    hold, chart = demo_hold("TR-FWD"), cumulative("TR-FWD")
    (limit,) = [s for s in chart.strokes if s.css == "pg-limit" and len(s.points) > 2]
    (line,) = hold.cumulative.values()
    assert len(limit.points) == len(line.points)
    (load,) = [s for s in chart.strokes if s.css == "pg-load" and len(s.points) > 2]
    # x to scale: the first point of the load is the forward edge of the first unit, over box 11L.
    boxes = [s for s in chart.strokes if s.css == "pg-bay"]
    assert len(boxes) == len(hold.positions)
    assert min(u for s in boxes for u, _ in s.points) <= load.points[0][0]
    # 13 metres of hold, one scale for both.
    (first, last) = limit.points[0], limit.points[-1]
    metres = float(line.points[-1][0].si - line.points[0][0].si)
    floor = hold.floor.rectangle.x
    per_metre = (last[0] - first[0]) / metres
    assert per_metre == pytest.approx((SHEET_WIDTH - 8 - 46) / float(floor.high.si - floor.low.si))
    # Every position at its own limit stays above the line where the line binds.
    assert "3 100 kg forward of x 9.88 m" in chart.told


def test_what_is_loaded_adds_up_from_the_end_the_limit_counts_from() -> None:
    hold = demo_hold("SR-AFT")
    chart = cumulative("SR-AFT")
    (load,) = [s for s in chart.strokes if s.css == "pg-load" and len(s.points) > 2]
    heights = [v for _, v in load.points]
    assert heights == sorted(heights)  # from the aft end: most at the forward end, nothing at the aft one
    assert load.points[-1][1] == pytest.approx(180)
    assert {t.words for t in chart.texts} >= {*hold.positions, "3 050 kg", "1 100 kg"}


def test_positions_that_share_floor_are_not_counted_twice() -> None:
    hold = demo_hold("SR-AFT")
    bay = replace(hold.bays["41"], name="41X")
    wide = replace(
        hold,
        bays={**hold.bays, "41X": bay},
        positions={**hold.positions, "41X": replace(hold.positions["41"], name="41X")},
    )
    (line,) = wide.cumulative.values()
    chart = cumulative_chart(wide, line, own(wide), "kg")
    words = " ".join(text.words for text in chart.texts)
    assert "41, 42, 43, 44 each at its own limit" in words
    assert "41X" in words  # it has its box all the same
    check(chart)


def sequence(shares: list[Fraction], names: list[str]) -> tuple[Gear, HoldOrder]:
    """Stances with these nose gear shares, at least 6 % asked."""
    gear = Gear(of(0, "m"), of(10, "m"), Stated(of(6, "%"), None))
    stances = tuple(
        Stance(
            name,
            of(1000, "kg"),
            of(10 - 10 * share, "m"),
            of(1000 * share, "kg"),
            share,
            share >= gear.least_share.quantity.si,
        )
        for share, name in zip(shares, names, strict=True)
    )
    return gear, HoldOrder(("A",), stances, tail_stand=not all(s.met for s in stances))


def test_a_share_below_the_limit_is_crossed_and_said() -> None:
    """5.92 % is the worked gear-load example of limits.md: wheelbase 13.35 m, 0.79 m from the mains."""
    share = Fraction("0.79") / Fraction("13.35")
    gear, order = sequence([Fraction(12, 100), share, Fraction(6, 100)], ["", "A 41 in", "A 42 in"])
    chart = nose_share_chart("Skua", gear, order)
    check(chart)
    assert [mark.name for mark in chart.marks] == ["met", "broken", "met"]
    words = [text.words for text in chart.texts]
    assert "5.9 % !" in words  # cut, never up to what would pass
    assert "6.0 %" in words
    assert "least 6 %" in words
    assert "A tail stand is needed." in words
    assert "A 41 in 5.9 % (too little)" in chart.told
    limit = next(s for s in chart.strokes if s.css == "pg-limit")
    assert chart.marks[1].u < limit.points[0][0] == pytest.approx(chart.marks[2].u)
    assert "pg-cross" in chart_markup(chart)


@given(
    shares=st.lists(
        st.fractions(min_value=-Fraction(1, 10), max_value=Fraction(3, 10)), min_size=1, max_size=25
    ),
    data=st.data(),
)
@settings(max_examples=40, deadline=None)
def test_any_sequence_is_drawn_without_overlap(shares: list[Fraction], data: st.DataObject) -> None:
    names = data.draw(st.lists(st.text("abcW1 -", max_size=40), min_size=len(shares), max_size=len(shares)))
    gear, order = sequence(shares, names)
    check(nose_share_chart("any", gear, order))


def test_a_line_of_packages_runs_in_steps_on_the_safe_side() -> None:
    chart = package_chart("door", table({"800": [6000, 4000, 2000], "1000": [6000, 4000, 2000]}))
    (line,) = [s for s in chart.strokes if s.css.startswith("pg-line") and len(s.points) > 2]
    assert len(line.points) == 6
    # At every width drawn, the line is as low as at the next wider one of the table.
    for (_, left), (_, right) in zip(line.points[::2], line.points[1::2], strict=True):
        assert left == right
    assert "up to 1 000 mm high" in " ".join(text.words for text in chart.texts)  # equal heights are one
    assert "300 mm wide 6 000 mm" in chart.told


def test_a_contour_left_of_the_centreline_is_mirrored() -> None:
    chart = section("TR-FWD")
    left, right = [s for s in chart.strokes if s.css.startswith("pg-line") and s.closed]
    middle = SHEET_WIDTH / 2
    mirrored = sorted((round(2 * middle - u, 6), round(v, 6)) for u, v in left.points)
    assert mirrored == sorted((round(u, 6), round(v, 6)) for u, v in right.points)
    assert "AKE" in chart.told


def test_a_cross_section_without_contours_is_drawn_bare() -> None:
    hold = demo_hold("SR-AFT")
    assert hold.cross_section is not None
    chart = section_chart(hold, hold.cross_section, {}, {})
    assert [s.css for s in chart.strokes] == ["pg-floor", "pg-guide"]
    check(chart)


@given(high=st.fractions(min_value=Fraction(1, 1000), max_value=10**6), most=st.integers(3, 9))
@settings(max_examples=50, deadline=None)
def test_ticks_are_round_and_few(high: Fraction, most: int) -> None:
    found = ticks(high, most)
    assert 1 <= len(found) <= most
    assert found[0] == 0
    assert found[-1] <= high
    for step in {b - a for a, b in pairwise(found)}:
        tens = [step / Fraction(10) ** n for n in range(-6, 8)]
        assert {Fraction(1), Fraction(2), Fraction(5)} & set(tens)
    assert len({b - a for a, b in pairwise(found)}) <= 1


def test_a_scale_is_straight() -> None:
    scale = Scale(Fraction(2), Fraction(4), 10, 20)
    assert [scale.at(Fraction(n)) for n in (2, 3, 4)] == [10, 15, 20]


@given(
    points=st.lists(
        st.tuples(st.integers(0, 640), st.integers(1, 40_000)),
        min_size=2,
        max_size=6,
        unique_by=lambda p: p[0],
    ),
    forward=st.booleans(),
    unit=st.sampled_from(["kg", "lb"]),
)
@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
def test_any_cumulative_limit_is_drawn_without_overlap(
    points: list[tuple[int, int]], forward: bool, unit: str
) -> None:
    hold = demo_hold("SR-AFT")
    line = CumulativeLine(
        "any",
        "any limit",
        LoadDirection.FORWARD if forward else LoadDirection.AFT,
        tuple((of(Fraction(1090 + x, 100), "m"), Stated(of(mass, "kg"), None)) for x, mass in sorted(points)),
    )
    check(cumulative_chart(hold, line, own(hold), unit))


@given(
    rows=st.lists(
        st.lists(st.one_of(st.none(), st.integers(10, 20_000)), min_size=8, max_size=8),
        min_size=1,
        max_size=8,
    )
)
@settings(max_examples=40, deadline=None)
def test_any_package_table_is_drawn_without_overlap(rows: list[list[int | None]]) -> None:
    check(package_chart("door", table({str(200 * n): row for n, row in enumerate(rows, start=1)})))
