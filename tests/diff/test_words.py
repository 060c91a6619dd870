"""Whole records in words: whatever class a description is made of, its coming and going can be told."""

from __future__ import annotations

from procgen.diff.shape import in_words
from tests.support import demo


def test_a_whole_hold_is_put_in_words() -> None:
    for name, hold in demo().network.holds.items():
        words = in_words(hold)
        assert name in words
        assert hold.title in words
