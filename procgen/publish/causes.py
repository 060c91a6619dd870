"""Causes of differences as pages show them: where in the inputs, and what was done there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from procgen.results.difference import Cause, CauseKind, EditPlace, InputEdit
from procgen.results.difference_rows import cause_words, earlier, edit_words, places_of, where


@dataclass(frozen=True, slots=True)
class ShownCause:
    """A cause in words, empty where the only place says it all, and the places of the inputs behind it.

    Of each place: the file and line, and what was done there.
    """

    words: str
    places: tuple[tuple[str, str], ...]


def shown_causes(
    causes: Sequence[Cause], edits: Mapping[int, InputEdit], root: str = ""
) -> tuple[ShownCause, ...]:
    """Causes by the numbers of edits; `root` is the folder before the names of files."""
    return tuple(_cause(one, edits, root) for one in causes)


def _cause(cause: Cause, edits: Mapping[int, InputEdit], root: str) -> ShownCause:
    places = places_of(cause, edits)
    words = "" if cause.kind is CauseKind.INPUT and len(places) == 1 else cause_words(cause, edits, root)
    return ShownCause(words, tuple(shown_edit(place, root) for place in places))


def shown_edit(place: EditPlace, root: str = "") -> tuple[str, str]:
    """The file and line of a place, and what was done there; with its line before, where that is another."""
    inside = f"{root.rstrip('/')}/" if root and not place.file.startswith("<") else ""
    file = f"{inside}{where(place)}"
    shifted = place.was_line and place.now_line and place.was_line != place.now_line
    before = f" (line {place.was_line} before)" if shifted else ""
    if place.was_file:
        before = f" ({inside}{earlier(place)} before)"
    return file, f"{edit_words(place)}{before}"
