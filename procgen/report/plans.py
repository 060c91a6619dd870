"""Plans and procedures for the terminal and as data; and the answer where there is no plan."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from procgen.model.hold import Hold
from procgen.model.step import (
    Check,
    CheckItems,
    CheckLatch,
    Close,
    Drive,
    Fit,
    Lower,
    Note,
    Open,
    Present,
    Procedure,
    Push,
    Raise,
    Remove,
    Report,
    Section,
    SetControl,
    Step,
    Stow,
    Warn,
)
from procgen.model.words import OUTSIDE, Looker, RestraintKind, RestraintState
from procgen.report.json_text import json_text
from procgen.report.places import Documents, place_data, shown_place
from procgen.report.step_form import procedure_data, procedure_of
from procgen.report.yaml_text import yaml_text
from procgen.results.missing import MissingCell
from procgen.results.out_of_service import failure_words
from procgen.results.plan import NoPlan, Plan

HOLD_EMPTY = "hold-empty"
"""The look into every position before the door closes after unloading."""


def plan_yaml(procedure: Procedure | Plan) -> str:
    """The step form as YAML, one step on a line; our reader takes it back without a finding."""
    return yaml_text(procedure_data(procedure))


def plan_json(procedure: Procedure | Plan) -> str:
    """The step form as JSON."""
    return json_text(procedure_data(procedure))


def plan_text(
    procedure: Procedure | Plan, hold: Hold | None = None, lowered: Sequence[MissingCell] = ()
) -> str:
    """Numbered steps to read in a terminal, with the items' titles where the hold is given.

    What is out of service stands before them, with the limits that it has `lowered`.
    """
    if isinstance(procedure, Plan):
        procedure = procedure_of(procedure)
    count = len(procedure.units)
    head = f"{procedure.hold}, {procedure.operation}: {count} {'unit' if count == 1 else 'units'}"
    lines = [head, ""]
    for heading, units in (("moved", procedure.units), ("stays aboard", procedure.aboard)):
        for u in units.values():
            said = "comes out and is put back" if u.name in procedure.put_back else heading
            lines.append(f"  {u.name}  {u.unit_type}  position {u.bay}  {said}")
    lines += _out_of_service(procedure, hold, lowered)
    words = _Words(_titles(hold) if hold is not None else {}, [u.bay for u in procedure.aboard.values()])
    number = 0
    for step in procedure.steps:
        if isinstance(step, Section):
            lines += ["", str(step.name).replace("-", " ").capitalize()]
        elif isinstance(step, Warn):
            lines.append(f"       {step.signal.upper()}: {step.hazard.replace('-', ' ')}")
        else:
            number += 1
            lines.append(f"  {number:3}. {words.step(step)}")
    return "\n".join(lines)


def no_plan_text(no_plan: NoPlan, documents: Documents | None = None, *, root: str = "") -> str:
    """Why there is no plan: one line for each reason, with the place in the description behind it."""
    lines = [f"{no_plan.hold}, {no_plan.operation}: there is no plan."]
    for reason in no_plan.reasons:
        place = shown_place(reason.place, documents or {}, root)
        lines.append(f"{place}: {reason.message}" if place else f"  {reason.message}")
    return "\n".join(lines)


def no_plan_json(no_plan: NoPlan, documents: Documents | None = None, *, root: str = "") -> str:
    """Why there is no plan: `hold`, `operation`, and `reasons` (places with a `message`)."""
    data = {
        "hold": no_plan.hold,
        "operation": str(no_plan.operation),
        "reasons": [
            {"message": reason.message, **place_data(reason.place, documents or {}, root)}
            for reason in no_plan.reasons
        ],
    }
    return json_text(data)


def _out_of_service(procedure: Procedure, hold: Hold | None, lowered: Sequence[MissingCell]) -> list[str]:
    """What does not work, and what the positions may still carry, each in the unit it derives from."""
    if not procedure.out_of_service or hold is None:
        return []
    lines = ["", f"Out of service: {', '.join(failure_words(hold, one) for one in procedure.out_of_service)}"]
    for cell in lowered:
        governing, before = cell.cell.governing, cell.whole.limit
        if governing is not None and before is not None:
            lines.append(
                f"  {cell.whole.position} {cell.whole.unit_type}: at most {governing.mass.down()}"
                f" ({governing.title}) instead of {before.down()}"
            )
    return lines


def step_words(step: Step, hold: Hold) -> str:
    """One step as a short sentence, with the items' titles; of a section head its name."""
    nets = frozenset(name for name, item in hold.restraints.items() if item.kind is RestraintKind.NET)
    return _Words(_titles(hold), (), nets).step(step)


def _titles(hold: Hold) -> Mapping[str, str]:
    """The titles of everything in the hold that a step may name."""
    gear = hold.hand_moves.gear if hold.hand_moves is not None else {}
    named = (hold.doors, hold.panels, hold.controls, hold.restraints, gear)
    return {name: thing.title for group in named for name, thing in group.items() if thing.title}


_NETS = {RestraintState.RAISED: "fitted", RestraintState.LOWERED: "removed"}
"""How nets stand, in words."""
_LOOKERS = {Looker.CLOSER: "whoever closed it", Looker.SECOND: "a second person"}


class _Words:
    """Steps as short sentences; `titles` gives the words for an item's name.

    `staying` are the bays whose units stay aboard: a hold is not empty then. `nets` are fitted and removed.
    """

    def __init__(
        self, titles: Mapping[str, str], staying: Sequence[str], nets: frozenset[str] = frozenset()
    ) -> None:
        self.titles = titles
        self.staying = staying
        self.nets = nets

    def step(self, step: Step) -> str:
        """One step in words."""
        match step:
            case Open(target=name) | Close(target=name):
                return f"{type(step).__name__} {self._title(name)}."
            case Raise(item=name) | Lower(item=name) | Fit(item=name) | Remove(item=name):
                return f"{type(step).__name__} {self._title(name)}."
            case SetControl(control=control, position=position):
                return f"Set {self._title(control)} to {position}."
            case Present(unit=unit, door=door):
                return f"Bring {unit} to {'the door' if door is None else self._title(door)}."
            case Drive() | Push():
                return self._move(step)
            case Stow():
                return _stow(step)
            case Check() | CheckItems():
                return self._check(step)
            case CheckLatch(door=door, by=by):
                return f"Check the latch of {self._title(door)}, by {_LOOKERS[by]}."
            case Report(what=what):
                return f"Report: {what.replace('-', ' ')}."
            case Note(text=text):
                return f"Note: {' '.join(text.split())}"
            case Section(name=name) | Warn(hazard=name):
                return str(name)

    def _title(self, name: str) -> str:
        return self.titles.get(name, name)

    def _move(self, step: Drive | Push) -> str:
        way = f"{step.unit} {_way(step.through)}"
        held = " and ".join(f"{self._title(control)} to {at}" for control, at in step.hold.items())
        if isinstance(step, Drive):
            return f"Drive {way}: hold {held}." if held else f"Drive {way}."
        verb, gear = ("Push", "") if step.gear is None else ("Pull", f" and the {self._title(step.gear)}")
        return f"{verb} {way} with {_people(step.crew)}{gear}{f': hold {held}' if held else ''}."

    def _check(self, step: Check | CheckItems) -> str:
        if isinstance(step, CheckItems):
            nets = self.nets.issuperset(step.items)
            state = _NETS[step.state] if nets else step.state
            return f"Check {state}: {', '.join(self._title(item) for item in step.items)}."
        condition = step.condition.replace("-", " ")
        if step.condition == HOLD_EMPTY and self.staying:
            condition += f" but for {', '.join(self.staying)}"
        return f"Check {step.unit}: {condition}." if step.unit else f"Check: {condition}."


def _people(crew: int) -> str:
    return f"{crew} {'person' if crew == 1 else 'people'}"


def _stow(step: Stow) -> str:
    """Into a bulk section, or out of it where the way ends outside."""
    verb = "Take out" if step.through[-1:] == (OUTSIDE,) else "Stow"
    return f"{verb} {step.unit} {_way(step.through)} with {_people(step.crew)}."


def _way(through: tuple[str, ...]) -> str:
    """`from outside to 44`, `from 44 through 43, 42 to 41`."""
    if len(through) < 2:
        return "".join(f"in {place}" for place in through)
    between = f" through {', '.join(through[1:-1])}" if len(through) > 2 else ""
    return f"from {through[0]}{between} to {through[-1]}"
