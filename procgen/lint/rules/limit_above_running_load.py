"""A position may carry more than the floor carries under it."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.fit import floor_under
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.stated import Stated
from procgen.model.station import Network
from procgen.model.unit import BaseSize
from procgen.units import Quantity, of


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Position limit against running load times the length of the base along x."""
    running = hold.floor.running
    if running is None:
        return
    limits = [*_limits(hold, network)]
    above = [(name, stated, base) for name, stated, base in limits if stated.quantity > _most(running, base)]
    if len(above) > 1 and len(above) == len(limits):
        yield Complaint(
            f"no position may carry what it says: the running load of {running.quantity} allows less"
            " everywhere",
            running.place,
            "look for a digit lost or a wrong unit in the running load; else correct the positions",
            tuple(Related(stated.place, f"position “{name}”") for name, stated, _ in above),
        )
        return
    for name, stated, base in above:
        most = _most(running, base).to(stated.quantity.unit.symbol)
        yield Complaint(
            f"position “{name}” may carry {stated.quantity}, but the running load of {running.quantity}"
            " allows"
            f" only {most.down(1)} on {base.length}",
            stated.place,
            f"write at most {most.down()}, or correct the running load",
            (Related(running.place, "the running load"), Related(base.place.child("length"), "the length")),
            (("position", name),),
        )


def _limits(hold: Hold, network: Network) -> Iterator[tuple[str, Stated, BaseSize]]:
    for position in hold.positions.values():
        for code, stated in position.max_mass.items():
            base = floor_under(hold, network, position.name, code)
            if base is not None:
                yield position.name, stated, base


def _most(running: Stated, base: BaseSize) -> Quantity:
    return of(running.quantity.si * base.length.si, "kg")


RULE = HoldRule("limit-above-running-load", Severity.ERROR, check)
