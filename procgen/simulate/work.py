"""One step at work: the state it changes, the ledger it keeps, the findings it leaves.

A `Work` lives for one step. The states it takes and leaves are immutable values.
"""

from __future__ import annotations

from dataclasses import replace

from procgen.diagnostics import NOWHERE, Finding, Place, Related
from procgen.model.step import Step
from procgen.model.words import RestraintState
from procgen.results.state import State
from procgen.simulate.ledger import Ledger, Sort
from procgen.simulate.rules import SEVERITY
from procgen.simulate.scene import Scene


class Work:
    """The making of one step: number from 1, state, ledger, findings, restraints passed."""

    def __init__(self, scene: Scene, number: int, step: Step, state: State, ledger: Ledger) -> None:
        self.scene = scene
        self.number = number
        self.step = step
        self.state = state
        self.ledger = ledger
        self.findings: list[Finding] = []
        self.passed: list[str] = []

    def find(
        self,
        rule: str,
        message: str,
        *,
        suggestion: str = "",
        against: Place = NOWHERE,
        because: str = "",
        item: str | None = None,
        bay: str | None = None,
        unit: str | None = None,
    ) -> None:
        """Leave a finding of this step.

        `message` goes on from "step 14 ". `against` is the place in the description that the step
        contradicts, `because` what stands there.
        """
        about = (("item", item), ("bay", bay), ("unit", unit))
        self.findings.append(
            Finding(
                rule=rule,
                message=f"step {self.number} {message}",
                place=self.step.place if self.step.place.file else against,
                severity=SEVERITY[rule],
                suggestion=suggestion,
                related=(Related(against, because),) if against.file and because else (),
                subject=(
                    ("step", str(self.number)),
                    *((kind, name) for kind, name in about if name is not None),
                ),
            )
        )

    def excused(self, sort: Sort, name: str, wanted: str) -> bool:
        """Whether an earlier finding answers for this thing not being `wanted`."""
        if self.ledger.in_doubt(sort, name):
            return True
        answered = self.ledger.answering(sort, name, wanted)
        if answered is None:
            return False
        self.ledger = answered
        return True

    def doubt(self, sort: Sort, name: str) -> None:
        """Put a thing in doubt."""
        self.ledger = self.ledger.doubting(sort, name)

    def settle(self, sort: Sort, name: str) -> None:
        """A step has made a thing known, and was the last to change it."""
        self.ledger = self.ledger.settled(sort, name).with_touch(sort, name, self.number)

    def owe(self, sort: Sort, wanted: str) -> None:
        """Note what this step should have done, to a thing that cannot be told."""
        self.ledger = self.ledger.owing(sort, wanted)

    def at_goal(self, unit: str) -> bool:
        """Whether a unit is where the procedure wants it in the end."""
        return self.scene.goal(unit) == self.state.units.get(unit)

    def restraint(self, name: str) -> RestraintState:
        """How a restraint stands; one that is out of service stands as it is stuck."""
        stuck = self.state.stuck.get(name)
        if stuck is not None:
            return stuck
        return self.state.restraints.get(name) or self.scene.hold.restraints[name].at_rest

    def control(self, name: str) -> str:
        """Where a control stands."""
        return self.state.controls.get(name, self.scene.hold.controls[name].rest)

    def put_restraint(self, name: str, to: RestraintState) -> None:
        """Move a restraint, unless it is stuck."""
        if name not in self.state.stuck:
            self.state = replace(self.state, restraints={**self.state.restraints, name: to})

    def put_control(self, name: str, position: str) -> None:
        """Move a control."""
        self.state = replace(self.state, controls={**self.state.controls, name: position})

    def put_unit(self, name: str, place: str, door: str | None = None) -> None:
        """Put a unit in a bay or outside, there at a door, where it is known which."""
        at_door = {unit: at for unit, at in self.state.at_door.items() if unit != name}
        if door is not None:
            at_door[name] = door
        self.state = replace(self.state, units={**self.state.units, name: place}, at_door=at_door)

    def go_inside(self) -> None:
        """Somebody is in the hold from now on, and the path is no longer confirmed."""
        self.state = replace(self.state, inside=True, path_clear=False, clear_for=None)
        self.settle(Sort.PERSON, "")
