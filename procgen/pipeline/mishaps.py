"""The moments of a procedure at which something can go wrong, and how the hold stands then."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

from procgen.model.hold import Hold
from procgen.model.step import Drive, Procedure, Push, Section, Step, Warn
from procgen.model.unit import UnitType
from procgen.model.words import OUTSIDE, POWER
from procgen.results.recovery import Mishap
from procgen.results.state import State
from procgen.results.trace import Trace
from procgen.simulate import simulate

Move = Drive | Push


@dataclass(frozen=True, slots=True)
class Moment:
    """A moment at a step: how the hold stands, which unit is on its way in it, and where that is.

    `places` is one place or the two places between which the unit stands (`state` has it in the first of
    them and `ahead` in the second); nothing where none has moved or is on its way. `unit` is empty where it
    waits outside or has arrived. `left` are the places that its move has still to pass, from where it is.
    """

    index: int
    state: State
    unit: str = ""
    places: tuple[str, ...] = ()
    left: tuple[str, ...] = ()
    ahead: State | None = None

    @property
    def is_between(self) -> bool:
        """Whether the unit stands between two places."""
        return len(self.places) > 1


def moments(
    hold: Hold, unit_types: Mapping[str, UnitType], procedure: Procedure, trace: Trace
) -> Iterator[Moment]:
    """Every moment while a door is open: the end of each step; in a move every bay passed, and between."""
    for index, (step, traced) in enumerate(zip(procedure.steps, trace.steps, strict=True)):
        if isinstance(step, Section | Warn) or not (traced.after.open_doors or isinstance(step, Move)):
            continue
        if isinstance(step, Move):
            yield from _of_move(hold, unit_types, procedure, index, step, traced.before)
            continue
        unit = on_its_way(procedure, traced.after)
        yield Moment(index, traced.after, unit, (traced.after.units[unit],) if unit else ())


def _of_move(
    hold: Hold,
    unit_types: Mapping[str, UnitType],
    procedure: Procedure,
    index: int,
    step: Move,
    before: State,
) -> Iterator[Moment]:
    through, unit = step.through, step.unit
    states = [before]
    for count in range(2, len(through) + 1):
        part = replace(procedure, steps=(replace(step, through=through[:count]),))
        states.append(simulate(hold, unit_types, part, before).steps[0].after)
    for number, (place, state) in enumerate(zip(through, states, strict=True)):
        left = through[number:]
        arrived = len(left) == 1 and unit != on_its_way(procedure, state)
        moving = "" if place == OUTSIDE or arrived else unit
        yield Moment(index, state, moving, (place,), left if len(left) > 1 else ())
    for number, pair in enumerate(pairwise(through)):
        yield Moment(index, states[number], unit, pair, through[number:], states[number + 1])


def on_its_way(procedure: Procedure, state: State) -> str:
    """The unit that stands in the hold and not in its bay; empty where there is none."""
    planned = {**procedure.aboard, **procedure.units}
    return next(
        (
            unit
            for unit, place in state.units.items()
            if place != OUTSIDE and unit in planned and planned[unit].bay != place
        ),
        "",
    )


def mishaps_at(hold: Hold, step: Step, moment: Moment) -> Iterator[tuple[Mishap, State]]:
    """What can go wrong at a moment, and the state then.

    The drives that fail under a unit are those that run in this step, or where none does, all that lie
    under it.
    """
    state = moment.state
    if hold.power is not None:
        yield Mishap.POWER, replace(state, dead=state.dead | {POWER})
    if moment.unit:
        drives = _drives_under(hold, step, moment)
        if drives:
            yield Mishap.DRIVE, replace(state, dead=state.dead | drives)
        yield Mishap.JAMMED, replace(state, jammed=state.jammed | {moment.unit})
    if not moment.is_between:
        yield Mishap.PERSON, replace(state, inside=True, path_clear=False, clear_for=None)


def _drives_under(hold: Hold, step: Step, moment: Moment) -> frozenset[str]:
    places = {*moment.places, *moment.left[:2]}
    under = {name: drive for name, drive in hold.drives.items() if not places.isdisjoint(drive.under)}
    if not isinstance(step, Drive):
        return frozenset(under)
    return frozenset(
        name for name, drive in under.items() if step.hold.get(drive.run_by) in drive.go.values()
    )


def way_in(hold: Hold, state: State) -> bool:
    """Whether somebody can step in at an open door: a bay there is empty, and no unit stands over it."""
    taken = {
        bay
        for place in state.units.values()
        if place in hold.bays
        for bay in (place, *hold.overlapping(place))
    }
    return any(bay.door in state.open_doors and name not in taken for name, bay in hold.bays.items())
