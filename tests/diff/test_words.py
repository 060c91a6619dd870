"""Whole records in words: whatever class a description is made of, its coming and going can be told."""

from __future__ import annotations

import pytest

from procgen.diff.directions import direction_of
from procgen.diff.shape import in_words
from procgen.diff.texts import compare_texts
from procgen.results.difference import DifferenceClass
from tests.support import demo


def test_a_whole_hold_is_put_in_words() -> None:
    for name, hold in demo().network.holds.items():
        words = in_words(hold)
        assert name in words
        assert hold.title in words


def test_the_number_in_a_name_is_no_number() -> None:
    """That one more lock is named is tightened, whatever number is painted on it; a mass that rose is not."""
    names = ("lock 12", "centre lock 12")
    one, two = "Secure it with **lock 12**.", "Secure it with **lock 12**. In place: **centre lock 12**."
    named = compare_texts(f"At most 900 kg. {one}", f"At most 900 kg. {two}", names)
    raised = compare_texts(f"At most 900 kg. {one}", f"At most 950 kg. {two}", names)
    fewer = compare_texts(f"At most 900 kg. {two}", f"At most 900 kg. {one}", names)
    assert named is not None
    assert named.classed is DifferenceClass.TIGHTENED
    assert raised is not None
    assert raised.classed is DifferenceClass.LOOSENED
    assert fewer is not None
    assert fewer.classed is DifferenceClass.LOOSENED


def test_one_more_table_is_looked_at_and_one_that_went_is_answered_for() -> None:
    """A new procedure brings its table of times; nothing that was said before is taken back."""
    direction = direction_of("HoldTables", "figures")
    assert direction.added is DifferenceClass.CHANGED
    assert direction.removed is DifferenceClass.LOOSENED


@pytest.mark.parametrize(("record", "field"), [("Bay", "bulk"), ("UnitType", "loose")])
def test_loose_pieces_in_place_of_units_are_answered_for(record: str, field: str) -> None:
    """Either way round the limits are others, and the reviewer reads why."""
    direction = direction_of(record, field)
    assert {direction.up, direction.down, direction.changed} == {DifferenceClass.LOOSENED}
    assert "loose pieces" in direction.because(DifferenceClass.LOOSENED)
