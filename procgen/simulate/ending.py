"""The end of a procedure: every unit where it belongs, and the hold left as it must be.

A finding points at the step that last changed the thing, which is where the writer has to go on from.
"""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import NOWHERE, Finding, Place, Related
from procgen.model.hold import Restraint
from procgen.model.words import OUTSIDE, Operation, RestraintState
from procgen.results.state import State
from procgen.simulate.latches import mend, not_seen, unseen
from procgen.simulate.ledger import Ledger, Sort
from procgen.simulate.names import called, listed, stands, verb_for
from procgen.simulate.rules import SEVERITY
from procgen.simulate.scene import Scene


class Ending:
    """The end of a procedure: what is left, and what earlier findings answer for."""

    def __init__(self, scene: Scene, state: State, ledger: Ledger) -> None:
        self.scene = scene
        self.state = state
        self.ledger = ledger

    def findings(self) -> tuple[Finding, ...]:
        """What is not as it must be, in the order: units, restraints, switches, panels, doors, people."""
        return (
            *self._units(),
            *self._restraints(),
            *self._switches(),
            *self._open(),
            *self._people(),
        )

    def _excused(self, sort: Sort, name: str, wanted: str) -> bool:
        if self.ledger.in_doubt(sort, name):
            return True
        answered = self.ledger.answering(sort, name, wanted)
        if answered is not None:
            self.ledger = answered
        return answered is not None

    def _finding(
        self,
        rule: str,
        message: str,
        suggestion: str,
        touched: tuple[Sort, str],
        against: Place,
        because: str,
        **subject: str,
    ) -> Finding:
        steps, number = self.scene.procedure.steps, self.ledger.touched.get(touched)
        places = [self.scene.procedure.place, against]
        if touched[0] is Sort.UNIT:
            places.reverse()  # what is against is the unit's own line of the procedure
        if number is not None:
            places.insert(0, steps[number - 1].place)
            subject = {"step": str(number), **subject}
        return Finding(
            rule=rule,
            message=f"at the end {message}",
            place=next((place for place in places if place.file), NOWHERE),
            severity=SEVERITY[rule],
            suggestion=suggestion,
            related=(Related(against, because),) if against.file else (),
            subject=tuple(subject.items()),
        )

    def _astray(self) -> dict[str, str]:
        """Planned units that are not where they belong, with the place where they are, or nothing."""
        units = (*self.scene.procedure.units, *self.scene.procedure.aboard)
        return {
            unit: self.state.units.get(unit, "")
            for unit in units
            if self.state.units.get(unit) != self.scene.goal(unit)
        }

    def _units(self) -> Iterator[Finding]:
        loading = self.scene.procedure.operation is Operation.LOADING
        for unit, place in self._astray().items():
            if self.ledger.in_doubt(Sort.PLAN, unit):
                continue
            if self._excused(Sort.UNIT, unit, self.scene.goal(unit) or ""):
                continue
            planned = self.scene.planned(unit)
            where = f"is in {place}" if place not in ("", OUTSIDE) else "is not in the hold"
            bay = planned.bay if planned else ""
            moves = loading or unit not in self.scene.procedure.units
            yield self._finding(
                "unit-not-in-its-bay" if moves else "unit-left-aboard",
                f"{unit} {where}" + (f", not in {bay}" if moves else ""),
                f"move {unit} to {self.scene.goal(unit)}",
                (Sort.UNIT, unit),
                planned.place if planned else NOWHERE,
                f"{unit} belongs in {bay}" if moves else f"{unit} comes from {bay}",
                unit=unit,
                bay=bay,
            )

    def _restraints(self) -> Iterator[Finding]:
        loaded, unclear = self._holding()
        under = {name for bay in self.state.units.values() for name in self.scene.beneath.get(bay, ())}
        for name, item in self.scene.hold.restraints.items():
            stuck = self.state.stuck.get(name)
            now = stuck or self.state.restraints.get(name, item.at_rest)
            bays = loaded.get(name)
            wanted = RestraintState.RAISED if bays else item.closing_state
            if wanted is None or now is wanted or name in unclear or (stuck and not bays):
                continue
            if not bays and name in under:
                continue  # a unit stands over it
            if not self._excused(Sort.RESTRAINT, name, wanted.value):
                yield self._restraint(item, now, wanted, bays or [])

    def _restraint(
        self, item: Restraint, now: RestraintState, wanted: RestraintState, bays: list[str]
    ) -> Finding:
        because = f"in which it must stand {stands(item, wanted)}"
        holds = f" though it holds {listed(bays)}" if bays else ", and it holds no unit"
        subject = {"bay": bays[0]} if bays else {}
        moved = next((unit for unit, bay in self.state.units.items() if bays and bay == bays[0]), None)
        touched = (Sort.RESTRAINT, item.name)
        if touched not in self.ledger.touched and moved is not None:
            touched = (Sort.UNIT, moved)
        return self._finding(
            "restraint-left-down" if bays else "restraint-left-wrong",
            f"{called(item)} is {stands(item, now)}{holds}",
            f"{verb_for(item, wanted)} {called(item)} after this step",
            touched,
            item.place,
            f"{called(item)}, {because}" if not bays else called(item),
            item=item.name,
            **subject,
        )

    def _holding(self) -> tuple[dict[str, list[str]], set[str]]:
        """Which restraints hold which loaded bays; and those of units whose place was found wrong."""
        loaded: dict[str, list[str]] = {}
        unclear: set[str] = set()
        astray = self._astray()
        for unit, place in astray.items():
            planned = self.scene.planned(unit)
            for bay in (place, planned.bay if planned else place):
                unclear.update(self._held_by(bay), self.scene.beneath.get(bay, ()))
        for unit, place in self.state.units.items():
            if self.ledger.in_doubt(Sort.UNIT, unit):
                unclear.update(self._held_by(place))
            elif unit not in astray:
                for name in self._held_by(place):
                    loaded.setdefault(name, []).append(place)
        return loaded, unclear

    def _held_by(self, bay: str) -> tuple[str, ...]:
        position = self.scene.hold.positions.get(bay)
        return position.held_by if position else ()

    def _switches(self) -> Iterator[Finding]:
        """The power switch must be off, every other control that stays where it is set at rest."""
        power = self.scene.hold.power
        for name, control in self.scene.hold.controls.items():
            wanted = power.off if power is not None and power.switch == name else control.rest
            now = self.state.controls.get(name, control.rest)
            if now == wanted or control.is_held or self._excused(Sort.CONTROL, name, wanted):
                continue
            yield self._finding(
                "switch-left-on",
                f"{called(control)} stands in {now}",
                f"set {called(control)} to {wanted} after the last move",
                (Sort.CONTROL, name),
                control.place,
                called(control),
                item=name,
            )

    def _open(self) -> Iterator[Finding]:
        for name, panel in self.scene.hold.panels.items():
            if name in self.state.open_panels and not self._excused(Sort.PANEL, name, "closed"):
                yield self._left_open("panel-left-open", Sort.PANEL, name, called(panel), panel.place)
        for name, door in self.scene.hold.doors.items():
            if name in self.state.open_doors and not self._excused(Sort.DOOR, name, "closed"):
                yield self._left_open("door-left-open", Sort.DOOR, name, called(door), door.place)
        for door, missing in unseen(self.scene, self.state, self.ledger):
            yield self._finding(
                "latch-not-seen-twice",
                f"{not_seen(missing)} the latch of {called(door)}",
                f"write {mend(door, missing)} after it is closed",
                (Sort.DOOR, door.name),
                door.place,
                called(door),
                item=door.name,
            )

    def _left_open(self, rule: str, sort: Sort, name: str, title: str, place: Place) -> Finding:
        suggestion = f"close {title} at the end"
        return self._finding(rule, f"{title} is open", suggestion, (sort, name), place, title, item=name)

    def _people(self) -> Iterator[Finding]:
        doubtful = any(self.ledger.in_doubt(Sort.DOOR, door) for door in self.scene.hold.doors)
        if self.state.inside and not doubtful:
            yield self._finding(
                "person-left-inside",
                "somebody may be in the hold",
                "check everyone-out after the last thing done inside",
                (Sort.PERSON, ""),
                self.scene.hold.place,
                "the hold",
            )
