"""The order of an aircraft's holds, compared: what else is published follows from its own data."""

from __future__ import annotations

from procgen.diff.walk import At, make
from procgen.results.difference import Difference, DifferenceClass, DifferenceKind
from procgen.results.page import StationSite


def orders_of_holds(was: StationSite, now: StationSite) -> list[Difference]:
    """Where the holds of an aircraft are to be worked otherwise.

    It follows from data that are compared, so this is asked only where nothing else differs.
    """
    before = {one.name: one.verdict for one in was.aircraft}
    at = At("station", ("aircraft",), "StationSite", "aircraft")
    why = "the order of the holds, or the need for a tail stand, follows otherwise from the same data"
    return [
        make(
            at.down(one.name, "verdict"),
            DifferenceKind.CHANGED,
            DifferenceClass.LOOSENED,
            why,
            before[one.name],
            one.verdict,
        )
        for one in now.aircraft
        if before.get(one.name, one.verdict) != one.verdict
    ]
