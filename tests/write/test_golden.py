"""Whole pages as text, to be read aloud: would you hand them to someone standing in that hold?"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from procgen.model.step import Procedure
from procgen.model.words import Operation
from procgen.write import compose
from tests.support import demo, demo_hold
from tests.write.derived import page_of, plan_for
from tests.write.plain import plain

FOLDER = Path(__file__).parent / "golden"


def _generated(name: str, operation: Operation, *positions: str) -> Procedure:
    hold = demo_hold(name)
    return compose(plan_for(hold, operation, positions or None), hold, demo().network.hazards)


def _by_hand() -> Procedure:
    return demo().network.stations["K1B"].procedures[0]


CASES: dict[str, Callable[[], Procedure]] = {
    "single-row-loading": lambda: _generated("SR-AFT", Operation.LOADING),
    "single-row-unloading": lambda: _generated("SR-AFT", Operation.UNLOADING),
    "twin-row-loading": lambda: _generated("TR-FWD", Operation.LOADING, "11L", "11R", "14L", "14R"),
    "twin-row-unloading": lambda: _generated("TR-FWD", Operation.UNLOADING, "11L", "11R", "14L", "14R"),
    "by-hand": _by_hand,
}


@pytest.mark.parametrize("case", CASES)
def test_page(case: str, golden: Callable[[Path, str], None]) -> None:
    golden(FOLDER / f"{case}.txt", plain(page_of(CASES[case]())))


def test_no_orphans() -> None:
    assert sorted(path.name for path in FOLDER.iterdir()) == sorted(f"{case}.txt" for case in CASES)
