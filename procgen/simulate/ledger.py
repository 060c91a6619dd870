"""What the simulation no longer knows for sure after a finding.

Simulation goes on after a finding from the state that the step would have led to. That state is not
always one: after a move through a raised lock the writer may have forgotten to lower it before, or have
raised it too soon. So the lock is put *in doubt*: until a later step settles it, nothing that would be in
order with it up, or with it down, is held against the writer a second time. Where a step names nothing
that is known, what it should have done is an *open deed*: it answers for the one later finding that this
deed would have prevented. One slip then gives one finding, and the next slip still shows.

Only a finding that is an error puts anything in doubt: what it keeps unsaid is said when it is mended, and
until then the procedure cannot be published.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum


class Sort(StrEnum):
    """What can be in doubt."""

    RESTRAINT = "restraint"
    CONTROL = "control"
    PANEL = "panel"
    DOOR = "door"
    UNIT = "unit"  # where a unit is
    START = "start"  # whether a unit was where its last move started
    FIT = "fit"  # a unit that was found not to fit
    PLAN = "plan"  # a unit that was found not to be planned
    HANDS = "hands"  # the hold's leave to push: for a unit, or "" for all
    SERVICE = "service"  # something out of service whose use was found
    LATCH = "latch"  # who has looked at a latch: DOOR:LOOKER
    PERSON = "person"  # who is inside; the name is empty


Thing = tuple[Sort, str]


@dataclass(frozen=True, slots=True)
class Ledger:
    """Doubts, open deeds (a sort and the state or place it should have led to), and who did what last.

    A deed that should have led to "" may have led to any state.
    `touched` maps a thing to the number of the step that last changed it.
    """

    doubts: frozenset[Thing] = frozenset()
    deeds: tuple[tuple[Sort, str], ...] = ()
    touched: Mapping[Thing, int] = field(default_factory=dict)

    def in_doubt(self, sort: Sort, name: str) -> bool:
        """Whether a finding has put this in doubt and nothing has settled it."""
        return (sort, name) in self.doubts

    def doubting(self, sort: Sort, name: str) -> Ledger:
        """With one more thing in doubt."""
        return replace(self, doubts=self.doubts | {(sort, name)})

    def settled(self, sort: Sort, name: str) -> Ledger:
        """With one thing known again."""
        return replace(self, doubts=self.doubts - {(sort, name)})

    def owing(self, sort: Sort, wanted: str) -> Ledger:
        """With one more open deed."""
        return replace(self, deeds=(*self.deeds, (sort, wanted)))

    def answering(self, sort: Sort, name: str, wanted: str) -> Ledger | None:
        """The ledger after an open deed has answered for this thing, or None where none can."""
        deed = next((deed for deed in self.deeds if deed in ((sort, wanted), (sort, ""))), None)
        if deed is None:
            return None
        deeds = list(self.deeds)
        deeds.remove(deed)
        return replace(self, deeds=tuple(deeds)).doubting(sort, name)

    def with_touch(self, sort: Sort, name: str, step: int) -> Ledger:
        """With the number of the step that last changed a thing."""
        return replace(self, touched={**self.touched, (sort, name): step})
