"""Every check value agrees with its published answer, and the page says so."""

from __future__ import annotations

import pytest

from procgen.limits.check_values import check_values
from procgen.report.check_values import check_values_page
from procgen.results.check_value import CheckValue
from tests.support import ROOT

VALUES = check_values()


@pytest.mark.parametrize("value", VALUES, ids=lambda value: f"{value.what}: {value.case}")
def test_it_agrees(value: CheckValue) -> None:
    assert value.agrees, f"ours {float(value.ours)}, published {float(value.published)}"
    assert value.source


def test_each_case_stands_once() -> None:
    cases = [(value.what, value.case, value.source) for value in VALUES]
    assert len(set(cases)) == len(cases)


def test_the_page_is_up_to_date() -> None:
    assert (ROOT / "docs" / "check-values.md").read_text("utf-8") == check_values_page(VALUES)
