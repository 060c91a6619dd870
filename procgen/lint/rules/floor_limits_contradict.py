"""Two limits of one floor cannot both be right."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.units import of


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """The contact limit not below the area limit; the area limit over the whole width near the running load.

    A floor carries more right under one support than spread over everything. The running load may well be
    more than area load times width, where units stand on rollers; twice as much is taken for a slip.
    """
    floor = hold.floor
    if floor.area is None:
        return
    if floor.contact is not None and floor.contact.quantity < floor.area.quantity:
        yield Complaint(
            f"the floor carries {floor.contact.quantity} right under a support, less than the"
            f" {floor.area.quantity} that it carries over an area",
            floor.contact.place,
            "look for a digit or a unit that slipped, or exchange the two",
            (Related(floor.area.place, "the area load"),),
        )
    width = floor.rectangle.y.high.si - floor.rectangle.y.low.si
    if floor.running is not None and 2 * floor.area.quantity.si * width < floor.running.quantity.si:
        yield Complaint(
            f"the area load of {floor.area.quantity} over the whole width of {of(width, 'm')} is less than"
            f" half of the running load of {floor.running.quantity}",
            floor.area.place,
            "look for a digit or a unit that slipped in one of the two",
            (Related(floor.running.place, "the running load"),),
        )


RULE = HoldRule("floor-limits-contradict", Severity.WARNING, check)
