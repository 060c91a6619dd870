"""A position is said to be held by a restraint that does not stand there."""

from __future__ import annotations

import difflib
from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.lanes import standing_at, stands_elsewhere
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold, Position, Restraint
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each item of `held-by` stands between the position and a neighbour, or beside it."""
    for name, position in hold.positions.items():
        for index, held_by in enumerate(position.held_by):
            item = hold.restraints[held_by]
            if not stands_elsewhere(hold, item, name):
                continue
            yield Complaint(
                f"position “{name}” is held by “{held_by}”, which stands {_where(item)}",
                position.place.child("held-by", index),
                _suggest(hold, position, held_by),
                (
                    Related(
                        item.place.child("between" if item.between else "beside"), f"where “{held_by}” stands"
                    ),
                ),
                (("position", name), ("item", held_by)),
            )


def _where(item: Restraint) -> str:
    if item.between is not None:
        return f"between “{item.between[0]}” and “{item.between[1]}”"
    return "beside " + ", ".join(f"“{bay}”" for bay in item.beside) if item.beside else "nowhere"


def _suggest(hold: Hold, position: Position, wrong: str) -> str:
    free = [name for name in standing_at(hold, position.name) if name not in position.held_by]
    nearest = difflib.get_close_matches(wrong, free, n=1, cutoff=0.0)
    if nearest:
        return f"did you mean “{nearest[0]}”? Else correct where “{wrong}” stands"
    return f"take it out of `held-by`, or correct where “{wrong}” stands"


RULE = HoldRule("held-by-elsewhere", Severity.ERROR, check)
