"""The most that each zone can take, and what stops it (limits.md, section 2)."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from procgen.limits.described import limits_of
from procgen.limits.positions import position_cell
from procgen.limits.zones import most_together, overlap, placed
from procgen.model.hold import Hold, Zone
from procgen.model.unit import UnitType
from procgen.results.load_limits import Most, Placed
from procgen.units import Quantity


def zone_most(hold: Hold, unit_types: Mapping[str, UnitType]) -> Mapping[str, Most]:
    """For each zone of the hold, by name: the most that its positions can take together under every limit of
    the hold, all other positions empty, each loaded with the type that may be heaviest there.

    Of a zone that is a stretch of x it is what the units weigh that reach into it, all of each. Positions
    that share floor are not loaded together: of the ways to choose, the one that takes most counts.
    """
    heaviest = dict(_heaviest(hold, unit_types))
    limits = limits_of(hold)
    found: dict[str, Most] = {}
    for zone in hold.zones.values():
        units = [heaviest[name] for name in _positions(hold, zone, heaviest)]
        ways = sorted(_together(hold, units), key=lambda way: -sum(one.mass.si for one in way))
        best = most_together([], [])
        for way in ways:
            if sum(one.mass.si for one in way) <= best.total.si:
                break
            best = max(best, most_together(way, limits), key=lambda most: most.total)
        found[zone.name] = best
    return found


def _heaviest(hold: Hold, unit_types: Mapping[str, UnitType]) -> Iterator[tuple[str, Placed]]:
    """Each position with the type of which it may carry most, at its own limit."""
    for position in hold.positions.values():
        best: tuple[Quantity, UnitType] | None = None
        for unit_type in unit_types.values():
            limit = position_cell(hold, position, unit_type).limit
            if limit is not None and (best is None or limit > best[0]):
                best = (limit, unit_type)
        if best is not None:
            yield position.name, placed(hold, best[1], position.name, best[0])


def _positions(hold: Hold, zone: Zone, heaviest: Mapping[str, Placed]) -> list[str]:
    """The positions of a zone that can be loaded; for a stretch of x, those that reach into it."""
    named = [name for name in zone.positions or tuple(hold.positions) if name in heaviest]
    return [name for name in named if zone.x is None or overlap(heaviest[name].x, zone.x) > 0]


def _together(hold: Hold, units: Sequence[Placed]) -> Iterator[tuple[Placed, ...]]:
    """Every choice of units that share no floor, to which none can be added."""
    first = next(
        (
            (one, other)
            for index, one in enumerate(units)
            for other in units[index + 1 :]
            if other.position in hold.overlapping(one.position)
        ),
        None,
    )
    if first is None:
        yield tuple(units)
        return
    for out in first:
        yield from _together(hold, [unit for unit in units if unit is not out])
