"""A position is held by nothing in a direction that has a load factor."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.lanes import bays_astray, standing_at
from procgen.lint.rule import Complaint, HoldRule
from procgen.lint.strength import unrestrained
from procgen.model.hold import Hold, Position
from procgen.model.station import Network
from procgen.model.words import LoadDirection


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Every direction with a load factor is covered by a rating of `held-by`."""
    astray = bays_astray(hold)
    for name, position in hold.positions.items():
        missing = unrestrained(hold, name)
        if not missing or name in astray:
            continue
        yield Complaint(
            f"nothing that holds position “{name}” is rated {' or '.join(missing)}",
            position.place.child("held-by"),
            _suggest(hold, position, missing),
            tuple(
                Related(hold.load_factors.by_direction[way].place, f"the load factor {way}")
                for way in missing
            ),
            (("position", name),),
        )


def _suggest(hold: Hold, position: Position, missing: tuple[LoadDirection, ...]) -> str:
    able = [
        name
        for name, item in standing_at(hold, position.name).items()
        if name not in position.held_by and any(way in item.rating for way in missing)
    ]
    if able:
        return f"add {', '.join(f'“{name}”' for name in able)} to `held-by`"
    return f"add the restraint that holds a unit {' and '.join(missing)}, or its rating in that direction"


RULE = HoldRule("position-unrestrained", Severity.ERROR, check)
