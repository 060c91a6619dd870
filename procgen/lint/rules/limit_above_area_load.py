"""A position may carry more than the floor carries under its area."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.fit import floor_under
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.units import of


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Position limit against area load times the area of the base, where the load bears on the floor."""
    area = hold.floor.area
    if area is None:
        return
    for position in hold.positions.values():
        if not (hold.floor.bears_on_floor or hold.bays[position.name].bulk):
            continue
        for code, stated in position.max_mass.items():
            base = floor_under(hold, network, position.name, code)
            if base is None:
                continue
            most = of(area.quantity.si * base.length.si * base.width.si, "kg").to(stated.quantity.unit.symbol)
            if stated.quantity > most:
                yield Complaint(
                    f"position “{position.name}” may carry {stated.quantity} of “{code}”, but the area load"
                    f" of {area.quantity} allows only {most.down(1)} on {base.length} by {base.width}",
                    stated.place,
                    f"write at most {most.down()}, or correct the area load",
                    (Related(area.place, "the area load"), Related(base.place, f"“{base.code}”")),
                    (("position", position.name),),
                )


RULE = HoldRule("limit-above-area-load", Severity.ERROR, check)
