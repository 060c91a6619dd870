"""A list names the same thing twice."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Place, Related, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Positions of a zone, items of `held-by`, bays of `under` and `beside`, positions of a control."""
    for place, names in _lists(hold):
        for index, name in enumerate(names):
            if name in names[:index]:
                yield Complaint(
                    f"“{name}” stands twice in this list",
                    place.child(index),
                    "delete one; perhaps the other was to be a neighbour of it",
                    (Related(place.child(names.index(name)), "the first one"),),
                )


def _lists(hold: Hold) -> Iterator[tuple[Place, tuple[str, ...]]]:
    for control in hold.controls.values():
        yield control.place.child("positions"), control.positions
    for drive in hold.drives.values():
        yield drive.place.child("under"), drive.under
    for item in hold.restraints.values():
        yield item.place.child("beside"), item.beside
    for position in hold.positions.values():
        yield position.place.child("held-by"), position.held_by
    for zone in hold.zones.values():
        yield zone.place.child("positions"), zone.positions


RULE = HoldRule("listed-twice", Severity.ERROR, check)
