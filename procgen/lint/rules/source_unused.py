"""A document is listed as a source but no number comes from it."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.stated import SourceRef, Stated
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each source is named by some number of the hold."""
    used = {reference.source for reference in _references(hold)}
    for name, source in hold.sources.items():
        if name not in used:
            yield Complaint(
                f"no number comes from “{name}” ({source.title})",
                source.place.key(),
                "name it where its numbers stand, or delete it",
                subject=(("source", name),),
            )


def _references(hold: Hold) -> Iterator[SourceRef]:
    for stated in _numbers(hold):
        if stated is not None and stated.source is not None:
            yield stated.source
    if hold.cross_section is not None and hold.cross_section.source is not None:
        yield hold.cross_section.source
    yield from (note.source for note in hold.notes if note.source is not None)


def _numbers(hold: Hold) -> Iterator[Stated | None]:
    floor = hold.floor
    yield from (floor.running, floor.area, floor.contact, floor.point, floor.line)
    yield from hold.load_factors.by_direction.values()
    for door in hold.doors.values():
        yield from (door.wind.opening, door.wind.open)
    for item in hold.restraints.values():
        yield from item.rating.values()
    for position in hold.positions.values():
        yield from position.max_mass.values()
    for zone in hold.zones.values():
        yield from (zone.combined, zone.running, zone.asymmetry, zone.adjacent)
    for line in hold.cumulative.values():
        yield from (stated for _, stated in line.points)
    if hold.tie_down is not None:
        for point in hold.tie_down.points.values():
            yield from point.rating.values()
        yield from (strap.rating for strap in hold.tie_down.straps.values())
        yield hold.tie_down.friction
    if hold.hand_moves is not None:
        hand = hold.hand_moves
        yield from (hand.resistance_starting, hand.resistance_moving, hand.slope)
        yield from (hand.force_starting, hand.force_moving, hand.max_mass)
        yield from (gear.pull for gear in hand.gear.values())


RULE = HoldRule("source-unused", Severity.ADVICE, check)
