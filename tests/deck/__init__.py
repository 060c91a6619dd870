"""A hold with two doors that no demonstration station has: rows forward, pallets aft, a bulk section behind.

A wide powered side door in the middle, twin rows forward of it, pallets one across aft of it, bays of three
lengths; guides that must be up for the move sideways; a small second door to two sections loaded by hand.
Invented, as everything here.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

from procgen.load import Loaded
from procgen.model.hold import Hold
from tests.support import load_texts

FOLDER = Path(__file__).parent / "files"


@cache
def deck_files() -> dict[str, str]:
    """The files of the station that works the hold, by their path."""
    return {
        path.relative_to(FOLDER).as_posix(): path.read_text("utf-8")
        for path in sorted(FOLDER.rglob("*.yaml"))
    }


@cache
def deck() -> Loaded:
    """The station, loaded."""
    return load_texts(deck_files())


def deck_hold() -> Hold:
    """The hold."""
    return deck().network.holds["LD7"]


def deck_with(find: str, put: str) -> Loaded:
    """The station with one change of the hold: the one place where `find` stands becomes `put`."""
    name = "fleet/holds/LD7.yaml"
    text = deck_files()[name]
    assert text.count(find) == 1, f"“{find}” stands {text.count(find)} times"
    return load_texts({**deck_files(), name: text.replace(find, put)})
