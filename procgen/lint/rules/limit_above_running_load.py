"""A position may carry more than the floor carries under it."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.fit import base_of
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.units import of


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Position limit against running load times the length of the base along x."""
    running = hold.floor.running
    if running is None:
        return
    for position in hold.positions.values():
        for code, stated in position.max_mass.items():
            base = base_of(network, code)
            if base is None:
                continue
            most = of(running.quantity.si * base.length.si, "kg").to(stated.quantity.unit.symbol)
            if stated.quantity > most:
                yield Complaint(
                    f"position “{position.name}” may carry {stated.quantity} of “{code}”, but the"
                    " running load"
                    f" of {running.quantity} allows only {most.down(1)} on {base.length}",
                    stated.place,
                    f"write at most {most.down()}, or correct the running load",
                    (
                        Related(running.place, "the running load"),
                        Related(base.place.child("length"), "the length"),
                    ),
                    (("position", position.name),),
                )


RULE = HoldRule("limit-above-running-load", Severity.ERROR, check)
