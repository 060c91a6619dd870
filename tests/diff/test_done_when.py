"""What ends a step: said where nothing was said, it asks for more; taken away, it asks for less."""

from __future__ import annotations

from dataclasses import replace

import pytest

from procgen.diff.step_changes import compare_steps
from procgen.diff.stepping import Placed, placed_steps
from procgen.diff.walk import At
from procgen.results.difference import DifferenceClass
from tests.diff.versions import files, version

UNTIL = "Done when nobody stands before the door."


def _first() -> Placed:
    return next(iter(placed_steps(version(files()).site.holds[0].pages[0])))


@pytest.mark.parametrize(
    ("field", "was", "now", "expected"),
    [
        ("done_when", "", UNTIL, DifferenceClass.TIGHTENED),
        ("done_when", UNTIL, "", DifferenceClass.LOOSENED),
        ("done_when", UNTIL, "Done when you wait no longer.", DifferenceClass.LOOSENED),
        ("if_not", "", "Go on without it.", DifferenceClass.LOOSENED),
    ],
)
def test_a_condition_that_came_tightens(field: str, was: str, now: str, expected: DifferenceClass) -> None:
    """A way out that came where there was none may be a leave: it stays graver."""
    before, after = _placed(field, was), _placed(field, now)
    assert [one.classed for one in compare_steps(At("SR-AFT"), before, after, (), {})] == [expected]


def _placed(field: str, text: str) -> Placed:
    one = _first()
    step = replace(one.step, done_when=text) if field == "done_when" else replace(one.step, if_not=text)
    return replace(one, step=step)
