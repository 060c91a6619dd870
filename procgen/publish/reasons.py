"""Why a number is what it is: its reckoning, the documents behind it, the lines of data it stands in."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Protocol

from procgen.diagnostics import NOWHERE, Place
from procgen.model.stated import SourceRef, Stated
from procgen.results.hold_tables import place_key


@dataclass(frozen=True, slots=True)
class Why:
    """One reason: what it is called, what it comes to, how, from which documents and lines of data."""

    title: str
    value: str
    reckoning: str
    sources: tuple[SourceRef, ...]
    places: tuple[str, ...]


class Lined(Protocol):
    """What knows the lines of the places it names: a hold's site, an aircraft's."""

    @property
    def lines(self) -> Mapping[str, int]:
        """The line of each place, by `place_key`."""
        ...


def where(site: Lined, places: Iterable[Place]) -> tuple[str, ...]:
    """Places as `file:line`, each once; those that no file says are left out."""
    shown = (_shown(site, place) for place in places if place != NOWHERE and place.file)
    return tuple(dict.fromkeys(shown))


def _shown(site: Lined, place: Place) -> str:
    line = site.lines.get(place_key(place))
    return f"{place.file}:{line}" if line is not None else place.file


def stated_why(site: Lined, title: str, value: str, stated: Stated) -> Why:
    """A number as it is written in the data."""
    sources = (stated.source,) if stated.source is not None else ()
    return Why(title, value, "", sources, where(site, [stated.place]))
