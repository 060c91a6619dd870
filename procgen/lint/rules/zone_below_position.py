"""A zone may carry less than one position in it."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.fit import floor_under
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold, Zone
from procgen.model.stated import Stated
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Combined, pair and running limits of a zone against each position's own limit."""
    for zone in hold.zones.values():
        yield from _alone(hold, network, zone)
        if zone.combined is None or zone.x is not None:
            continue
        for name in zone.positions:
            limits = [*hold.positions[name].max_mass.values()]
            above = next((stated for stated in limits if stated.quantity > zone.combined.quantity), None)
            if above is not None:
                yield Complaint(
                    f"zone “{zone.name}” may carry {zone.combined.quantity} in all, but its position “{name}”"
                    f" {above.quantity} alone",
                    zone.combined.place,
                    "correct one of the two",
                    (Related(above.place, f"the limit of “{name}”"),),
                    (("zone", zone.name), ("position", name)),
                )
                break


def _alone(hold: Hold, network: Network, zone: Zone) -> Iterator[Complaint]:
    """The first position that alone is above the pair limit, and above the running load, of its zone."""
    for title, limit in (("two neighbours", zone.adjacent), ("its running load", zone.running)):
        if limit is None:
            continue
        for name, code, stated in _limits(hold, zone):
            base = floor_under(hold, network, name, code)
            length = base.length.si if base is not None else None
            most = limit.quantity.si * length if limit is zone.running and length else limit.quantity.si
            if stated.quantity.si > most and (limit is not zone.running or length):
                yield Complaint(
                    f"zone “{zone.name}” allows {limit.quantity} for {title}, but its position “{name}” may"
                    f" carry {stated.quantity} alone",
                    limit.place,
                    "look for a digit that slipped in one of the two",
                    (Related(stated.place, f"the limit of “{name}”"),),
                    (("zone", zone.name), ("position", name)),
                )
                break


def _limits(hold: Hold, zone: Zone) -> Iterator[tuple[str, str, Stated]]:
    for name in zone.positions:
        for code, stated in hold.positions[name].max_mass.items():
            yield name, code, stated


RULE = HoldRule("zone-below-position", Severity.WARNING, check)
