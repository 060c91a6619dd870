"""The limits on several units that a hold's description states (limits.md, section 2)."""

from __future__ import annotations

from procgen.model.hold import Hold, Zone
from procgen.results.load_limits import (
    AsymmetryLimit,
    CombinedLimit,
    CumulativeLimit,
    LoadLimit,
    PairLimit,
    RunningLimit,
)


def limits_of(hold: Hold) -> tuple[LoadLimit, ...]:
    """The limits on several units that a hold's description states, zone by zone, then the cumulative ones.

    The running load of the floor is not among them: it is a limit of one unit (see `positions`), and a
    zone's own where rows stand abreast.
    """
    found: list[LoadLimit] = []
    for zone in hold.zones.values():
        name, of, x = zone.name, zone.positions, zone.x
        if zone.combined is not None:
            found.append(CombinedLimit(name, zone.title, zone.combined, of, x))
        if zone.running is not None:
            found.append(RunningLimit(name, f"running load of {zone.title}", zone.running, x, of))
        if zone.asymmetry is not None:
            found.append(AsymmetryLimit(name, f"asymmetry of {zone.title}", zone.asymmetry, x, of))
        if zone.adjacent is not None:
            found += [
                PairLimit(name, f"neighbours {one} and {other}", zone.adjacent, (one, other))
                for one, other in neighbours(hold, zone)
            ]
    found += [
        CumulativeLimit(line.name, line.title, line.from_end, line.points)
        for line in hold.cumulative.values()
    ]
    return tuple(found)


def neighbours(hold: Hold, zone: Zone) -> tuple[tuple[str, str], ...]:
    """Pairs of positions in one row (their bays share a y) with no other of that row between them along x."""
    names = zone.positions or tuple(hold.positions)
    boxes = {name: hold.bays[name].rectangle for name in names}

    def row(one: str, other: str) -> bool:
        a, b = boxes[one].y, boxes[other].y
        return a.low < b.high and b.low < a.high

    def between(one: str, other: str) -> bool:
        low, high = boxes[one].x.high, boxes[other].x.low
        return any(
            boxes[mid].x.low >= low and boxes[mid].x.high <= high and row(one, mid) and row(mid, other)
            for mid in names
        )

    return tuple(
        (one, other)
        for one in names
        for other in names
        if row(one, other) and boxes[one].x.high <= boxes[other].x.low and not between(one, other)
    )
