"""Units that cannot be moved from where they stand."""

from __future__ import annotations

from procgen.simulate.ledger import Sort
from procgen.simulate.work import Work


def check_jammed(work: Work, unit: str | None, doing: str) -> None:
    """A jammed unit is not moved; that one is, is found once, and it counts as free from then on."""
    if unit is None or unit not in work.state.jammed or work.excused(Sort.SERVICE, unit, ""):
        return
    place, hold = work.state.units.get(unit, ""), work.scene.hold
    where = f" in {place}" if place in hold.bays else ""
    planned = work.scene.planned(unit)
    work.find(
        "jammed-unit-moved",
        f"{doing}, which is jammed{where}",
        suggestion="leave it where it stands and secure it there, or free it and take it out of “jammed”",
        against=planned.place if planned is not None else hold.place,
        because=unit,
        unit=unit,
    )
    work.doubt(Sort.SERVICE, unit)
