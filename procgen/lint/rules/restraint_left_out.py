"""A rated restraint stands at a position whose `held-by` does not name it."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.lanes import standing_at, stands_elsewhere, stands_on_lane
from procgen.lint.rule import Complaint, HoldRule
from procgen.lint.strength import holds_towards, unrestrained
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Each rated restraint at a position is in its `held-by`, where that is sound otherwise."""
    for name, position in hold.positions.items():
        bare = set(unrestrained(hold, name))
        if any(stands_elsewhere(hold, hold.restraints[item], name) for item in position.held_by):
            continue
        for item in standing_at(hold, name).values():
            if item.name in position.held_by or bare & set(item.rating) or not stands_on_lane(hold, item):
                continue
            if item.rating and holds_towards(hold, item, name):
                yield Complaint(
                    f"“{item.name}” stands at position “{name}” and is rated, but `held-by` does not name it",
                    position.place.child("held-by"),
                    f"add “{item.name}”, so that it is raised while a unit stands there",
                    (Related(item.place.key(), f"“{item.name}”"),),
                    (("position", name), ("item", item.name)),
                )


RULE = HoldRule("restraint-left-out", Severity.WARNING, check)
