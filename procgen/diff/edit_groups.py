"""Edits of the inputs that belong together, and those that only say what a station or a hold is called."""

from __future__ import annotations

from collections.abc import Sequence

from procgen.diagnostics import Place, Route
from procgen.results.difference import EditKind, InputEdit


def names_its_file(edit: InputEdit) -> bool:
    """Whether an edit gives a station or a hold another name: everything in its file is told under that."""
    return any(
        (place.route == ("station",) and place.file.endswith("/station.yaml"))
        or (place.route == ("hold",) and place.file.startswith("fleet/holds/"))
        for place in edit.places
    )


def groups_of(edits: Sequence[InputEdit]) -> list[tuple[int, ...]]:
    """Edits that can only be made together: a thing that comes, goes or is renamed, and whatever names it."""
    leads = {edit.number: edit.number for edit in edits}

    def lead(number: int) -> int:
        while leads[number] != number:
            number = leads[number]
        return number

    for edit in edits:
        if edit.kind not in (EditKind.ADDED, EditKind.REMOVED):
            continue
        name = _name_of(edit)
        if name is None:
            continue
        for other in edits:
            if other.number != edit.number and _mentions(other, name):
                leads[lead(other.number)] = lead(edit.number)
    groups: dict[int, list[int]] = {}
    for edit in edits:
        groups.setdefault(lead(edit.number), []).append(edit.number)
    return [tuple(group) for group in groups.values()]


def _name_of(edit: InputEdit) -> str | None:
    """The name of the thing that an edit brings or takes: an entry of a mapping of things, or a file."""
    place = edit.first
    if not place.route:
        return place.file.rsplit("/", 1)[-1].partition(".")[0]
    text = place.now or place.was
    last = place.route[-1]
    return last if isinstance(last, str) and text.startswith("{") and len(place.route) > 1 else None


def _mentions(edit: InputEdit, name: str) -> bool:
    return any(
        name in (*map(str, place.route), place.was, place.now)
        or any(
            f"{before}{name}{after}" in f"[{text}]"
            for before in "[{ "
            for after in ",]}:"
            for text in (place.was, place.now)
        )
        for place in edit.places
    )


def touches(edit: InputEdit, place: Place) -> bool:
    """Whether an edit is of the value at a place, of something in it, or of something it stands in."""
    # What stands only for a whole file singles out no line of it.
    return any(
        place.file in one.files and _along(one.route, place.route) and (place.route or not one.route)
        for one in edit.places
    )


def _along(one: Route, other: Route) -> bool:
    shorter = min(len(one), len(other))
    return one[:shorter] == other[:shorter]
