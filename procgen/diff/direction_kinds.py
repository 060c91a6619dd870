"""The kinds of direction: limits, demands, safeguards, words and what else a field can be."""

from __future__ import annotations

from procgen.diff.direction import CHANGED, LOOSENED, TIGHTENED, WORDING, Direction
from procgen.results.difference import DifferenceClass


def by_case(
    up: DifferenceClass,
    down: DifferenceClass,
    added: DifferenceClass,
    removed: DifferenceClass,
    why: str,
    why_otherwise: str,
    changed: DifferenceClass = LOOSENED,
    moved: DifferenceClass = WORDING,
) -> Direction:
    """A kind whose class depends on what happens; unless said, another value loosens, an order does not."""
    return Direction(up, down, added, removed, changed, moved, why, why_otherwise)


def everything(classed: DifferenceClass, why: str) -> Direction:
    """A kind of one class, whatever happens to it save its order."""
    return Direction(classed, classed, classed, classed, classed, WORDING, why, why)


LIMIT = by_case(LOOSENED, TIGHTENED, TIGHTENED, LOOSENED, "more is allowed", "less is allowed")
CAPACITY = by_case(
    LOOSENED, TIGHTENED, LOOSENED, TIGHTENED, "it is said to hold more", "it is said to hold less"
)
DEMAND = by_case(TIGHTENED, LOOSENED, TIGHTENED, LOOSENED, "less is asked for", "more is asked for")
ROOM = by_case(LOOSENED, TIGHTENED, LOOSENED, TIGHTENED, "larger things go in", "only smaller things go in")
SAFEGUARD = by_case(TIGHTENED, LOOSENED, TIGHTENED, LOOSENED, "one safeguard fewer", "one safeguard more")
LEAVE = by_case(
    LOOSENED, TIGHTENED, LOOSENED, TIGHTENED, "one more thing is allowed", "one thing fewer is allowed"
)
CONTENTS = by_case(LOOSENED, TIGHTENED, LOOSENED, TIGHTENED, "more can be loaded", "less can be loaded")
EQUIPMENT = everything(CHANGED, "other equipment")
RESTRAINT = by_case(TIGHTENED, LOOSENED, CHANGED, LOOSENED, "one restraint fewer", "one restraint more")
ANOTHER = everything(CHANGED, "another way of doing the same")
WORDS = everything(WORDING, "words only")
PLACES = everything(LOOSENED, "where things stand decides what counts together, and either way can loosen")
RECKONED = everything(LOOSENED, "what is reckoned rests on it, and either way can loosen")
LOADED_OTHERWISE = everything(LOOSENED, "other limits and other work hold for loose pieces than for units")
INSIDE = by_case(
    LOOSENED,
    TIGHTENED,
    LOOSENED,
    TIGHTENED,
    "somebody must go inside to reach it",
    "nobody need go inside to reach it",
)
TIMES = by_case(
    TIGHTENED, LOOSENED, TIGHTENED, LOOSENED, "less time is allowed for the work", "more time is allowed"
)
ALL_OR_LISTED = Direction(
    LOOSENED,
    TIGHTENED,
    LOOSENED,
    TIGHTENED,
    LOOSENED,
    WORDING,
    "more kinds are taken",
    "fewer kinds are taken",
    True,
)
COUNTED = Direction(
    TIGHTENED,
    LOOSENED,
    TIGHTENED,
    LOOSENED,
    LOOSENED,
    WORDING,
    "less counts for it",
    "more counts for it",
    True,
)
PROCEDURE = by_case(
    CHANGED, CHANGED, CHANGED, LOOSENED, "its work is told no more", "one more procedure", CHANGED, WORDING
)

AIRCRAFT = by_case(
    LOOSENED, TIGHTENED, LOOSENED, TIGHTENED, "it applies to one more aircraft", "one aircraft fewer", CHANGED
)
TABLE = by_case(CHANGED, CHANGED, CHANGED, LOOSENED, "its numbers are told no more", "one more table")
