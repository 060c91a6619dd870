"""What a station says of itself, compared: its own data, its procedures' data, the revision it states."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from procgen.diff.shape import in_words
from procgen.diff.walk import At, Handler, fields_of, make
from procgen.model.station import NO_REVISION, Revision, Station
from procgen.results.difference import Anchor, Difference, DifferenceClass, DifferenceKind

_TOLD_ON_PAGES = frozenset({"steps", "title", "generated", "operation", "hold", "effectivity"})


def of_station(at: At, was: Station, now: Station) -> Iterator[Difference]:
    """Every difference between two stations, save in the holds that they work."""
    below = replace(at, path=())
    handlers: Mapping[type, Handler] = {Revision: _revision}
    yield from fields_of(below, was, now, handlers, frozenset({"holds", "procedures"}))
    before = {one.name: one for one in was.procedures}
    for one in now.procedures:
        if one.name in before:
            here = replace(below.down("procedures", one.name, was=before[one.name], now=one), hold=one.hold)
            for told in fields_of(here, before[one.name], one, {}, _TOLD_ON_PAGES | {"units"}):
                yield replace(told, page=one.name, anchors=(Anchor("procedure", one.name, ""),))


def _revision(at: At, was: Revision, now: Revision) -> Iterator[Difference]:
    """The revision that a description states of itself, as one thing.

    One that it states no more is nothing that anybody counts down: its releases say theirs.
    """
    if was == now:
        return
    sides = [None if one == NO_REVISION else in_words(one) for one in (was, now)]
    kind = DifferenceKind.CHANGED
    if None in sides:
        kind = DifferenceKind.ADDED if sides[0] is None else DifferenceKind.REMOVED
    why = "what the description says of its own revision; a release says its own"
    told = make(at, kind, DifferenceClass.WORDING, why, sides[0], sides[1])
    yield replace(told, subject="the revision that the description states")
