"""Limit tables in the terminal and as JSON."""

import json
from fractions import Fraction

import pytest

from procgen.diagnostics import NOWHERE, Place
from procgen.model.stated import SourceRef
from procgen.report import limits_json, limits_text
from procgen.report.limit_sections import packages_text, zones_text
from procgen.report.limit_tables import exact
from procgen.results.limits import Candidate, LimitCell, LimitTable
from procgen.source import read_document
from procgen.units import Dimension, of, quantity

DOCUMENTS = {"ONE.yaml": read_document("ONE.yaml", "a: 3500 lb\nb: 1588 kg\n")[0]}
TABLE = LimitTable(
    "ONE",
    (
        LimitCell(
            "1",
            "AKE",
            (
                Candidate(
                    "position-limit",
                    "position limit",
                    quantity("3500 lb", Dimension.MASS),
                    "stated for base K",
                    (SourceRef("WB", "5-1"),),
                    (Place("ONE.yaml", ("a",)), Place("ONE.yaml", ("a",)), NOWHERE),
                ),
                Candidate(
                    "unit-maximum", "unit maximum", quantity("1 588 kg", Dimension.MASS), "AKE", (), ()
                ),
            ),
        ),
        LimitCell("1", "PKC", (), ("the base is too long", "no such contour")),
        LimitCell(
            "2",
            "AKE",
            (Candidate("restraint-up", "restraint, up", of(Fraction(10, 3), "kg"), "sum", (), ()),),
        ),
    ),
)


def test_text_shows_every_candidate_and_marks_the_one_that_governs() -> None:
    assert limits_text(TABLE, "kg", DOCUMENTS, root="stations") == (
        "ONE: the most a position may carry (in kg, rounded down)\n"
        "\n"
        "Position 1\n"
        "  AKE  1 587 kg (3 500 lb)  governed by position limit\n"
        "    > position limit  1 587 kg (3 500 lb)  stated for base K [WB 5-1]\n"
        "        stations/ONE.yaml:1:4\n"
        "      unit maximum               1 588 kg  AKE\n"
        "  PKC  not acceptable\n"
        "      the base is too long\n"
        "      no such contour\n"
        "\n"
        "Position 2\n"
        "  AKE  3 kg  governed by restraint, up\n"
        "    > restraint, up  3 kg  sum"
    )


def test_text_in_pounds_never_shows_more_than_was_written() -> None:
    text = limits_text(TABLE, "lb")
    assert "AKE  3 500 lb  governed by position limit" in text
    assert "3 500 lb (1 588 kg)" in text
    assert ":1:4" not in text


def test_json_gives_exact_values_and_places() -> None:
    data = json.loads(limits_json(TABLE, DOCUMENTS))
    assert data["hold"] == "ONE"
    first, second, third = data["cells"]
    assert (first["position"], first["unit_type"], first["acceptable"]) == ("1", "AKE", True)
    assert first["governs"] == "position-limit"
    assert first["limit"] == {
        "value": "3500",
        "unit": "lb",
        "written": "3500 lb",
        "rounded_down": "3 500 lb",
        "kg": "1587.573295",
    }
    assert [c["kind"] for c in first["candidates"]] == ["position-limit", "unit-maximum"]
    assert first["candidates"][0]["sources"] == ["WB 5-1"]
    assert first["candidates"][0]["places"][0]["line"] == 1
    assert (second["acceptable"], second["limit"], second["governs"]) == (False, None, None)
    assert second["reasons"] == ["the base is too long", "no such contour"]
    assert third["limit"]["kg"] == "10/3"
    assert third["limit"]["rounded_down"] == "3 kg"


@pytest.mark.parametrize(
    ("value", "text"),
    [("3", "3"), ("1/2", "0.5"), ("-7/40", "-0.175"), ("1/3", "1/3"), ("1250", "1250"), ("1/1000", "0.001")],
)
def test_exact_numbers(value: str, text: str) -> None:
    assert exact(Fraction(value)) == text


def test_a_table_without_rows_says_why() -> None:
    """A head with nothing under it reads as if the program had failed."""
    assert zones_text("ONE", {}, "kg").splitlines()[1:] == ["  The description names no zone."]
    assert packages_text("ONE", {}).splitlines()[1:] == [
        "  No `wall` of a door or no `cross-section` of the hold is described: nothing to reckon from."
    ]
