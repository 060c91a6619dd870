"""What units may weigh together, in words: every limit that the description states beyond one unit's own."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from procgen.model.hold import Hold, Zone
from procgen.model.stated import SourceRef, Span1, Stated
from procgen.publish.words import both
from procgen.results.page import HoldSite


@dataclass(frozen=True, slots=True)
class TogetherRow:
    """One limit of several units: `where` it holds, `most` of it in words, the `positions` it touches.

    `is_sum` says that it is a plain sum over the positions, as a card's script tells it. `element` is what
    change bars call the zone or line that states it.
    """

    title: str
    where: str
    most: str
    positions: tuple[str, ...]
    source: SourceRef | None
    is_sum: bool = False
    element: str = ""


def together(site: HoldSite, unit: str) -> tuple[TogetherRow, ...]:
    """Every limit of zones and every cumulative limit of a hold, in the order of the description."""
    hold = site.hold
    zones = (row for name, zone in hold.zones.items() for row in _zone(hold, name, zone, unit))
    return (*zones, *_cumulative(hold, unit))


def _zone(hold: Hold, name: str, zone: Zone, unit: str) -> Iterator[TogetherRow]:
    positions = zone.positions or _standing_in(hold, zone.x)
    where = ", ".join(zone.positions)
    if zone.x is not None:
        stretch = f"from x {zone.x.low} to {zone.x.high}"
        where = f"{where}; {stretch}" if where else stretch

    def row(words: str, stated: Stated, is_sum: bool = False) -> TogetherRow:
        named = f"zones:{name}"
        return TogetherRow(zone.title, where, words, positions, stated.source, is_sum, named)

    if zone.combined is not None:
        whole = zone.x is None
        part = "" if whole else ", counting what of each unit stands there"
        yield row(f"at most {both(zone.combined.quantity, unit)}{part}", zone.combined, whole)
    if zone.running is not None:
        running = zone.running
        yield row(f"at most {running.quantity} at any x, rows abreast added up", running)
    if zone.asymmetry is not None:
        yield row(f"one side at most {both(zone.asymmetry.quantity, unit)} heavier", zone.asymmetry)
    if zone.adjacent is not None:
        most = both(zone.adjacent.quantity, unit)
        yield row(f"two neighbours in one row at most {most}", zone.adjacent)


def _cumulative(hold: Hold, unit: str) -> Iterator[TogetherRow]:
    for name, line in hold.cumulative.items():
        for x, stated in line.points:
            yield TogetherRow(
                line.title,
                f"from the {line.from_end} end to x {x}",
                f"at most {both(stated.quantity, unit)}",
                (),
                stated.source,
                element=f"cumulative:{name}",
            )


def _standing_in(hold: Hold, stretch: Span1 | None) -> tuple[str, ...]:
    """The positions that stand in a stretch of x, wholly or in part; all of them where there is none."""
    spans = {name: hold.bays[name].rectangle.x for name in hold.positions}
    return tuple(
        name
        for name, span in spans.items()
        if stretch is None or (span.low < stretch.high and stretch.low < span.high)
    )
