"""Which way is looser: the class of each thing that can happen to one kind of thing."""

from __future__ import annotations

from dataclasses import dataclass

from procgen.results.difference import DifferenceClass

LOOSENED = DifferenceClass.LOOSENED
TIGHTENED = DifferenceClass.TIGHTENED
CHANGED = DifferenceClass.CHANGED
WORDING = DifferenceClass.WORDING


@dataclass(frozen=True, slots=True)
class Direction:
    """The class of what can happen to a thing.

    `up` and `down`: what can be ranked rose or fell (a number; false to true; lowered to raised; outside to
    inside). `added` and `removed`: it came or went. `changed`: it is another, and neither more nor less.
    `moved`: it stands elsewhere in its order. `empty_is_all`: an empty list means everything, so that the
    first entry restricts and losing the last one lifts the restriction.
    """

    up: DifferenceClass
    down: DifferenceClass
    added: DifferenceClass
    removed: DifferenceClass
    changed: DifferenceClass
    moved: DifferenceClass
    why: str
    why_otherwise: str
    empty_is_all: bool = False

    def because(self, classed: DifferenceClass) -> str:
        """Why a difference here has its class, in words."""
        return self.why if classed is LOOSENED else self.why_otherwise


UNKNOWN = Direction(
    LOOSENED, LOOSENED, LOOSENED, LOOSENED, LOOSENED, LOOSENED, "nothing says that this is harmless", ""
)
"""What is not in the table, and what can loosen either way."""
