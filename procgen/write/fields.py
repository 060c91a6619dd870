"""The words of named checks and reports, with their fields filled from the data.

Fields stand in braces in the hazard list. A sentence whose field has nothing to show is left out, so
that a page never says more than the data.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from procgen.model.hold import Hold
from procgen.model.stated import Stated
from procgen.model.step import Open, Procedure
from procgen.model.words import RestraintState
from procgen.write import phrases, words
from procgen.write.cycle_words import planned_unit
from procgen.write.standing import Standing

_FIELD = re.compile(r"\{([a-z-]+)\}")
_SENTENCE = re.compile(r"(?<=[.!?”])\s+(?=[A-Z{*])")


@dataclass(frozen=True, slots=True)
class Situation:
    """What fields are filled from: the procedure, its hold, how the hold stands, the step's unit.

    `by_hand`: the next unit to move is pushed by people, some of whom are in the hold meanwhile. `closing`:
    the door that is closed next, `door`: the one that is opened or closed next; empty where none is.
    """

    procedure: Procedure
    hold: Hold
    standing: Standing
    unit: str = ""
    by_hand: bool = False
    closing: str = ""
    door: str = ""


def filled(text: str, situation: Situation) -> str:
    """The text with every field filled; sentences with a field that is empty or unknown are left out."""
    kept = []
    for sentence in _SENTENCE.split(text):
        values = {name: _value(name, situation) for name in _FIELD.findall(sentence)}
        if all(values.values()):
            kept.append(_with(sentence, values))
    return " ".join(kept)


def _with(sentence: str, values: Mapping[str, str]) -> str:
    return _FIELD.sub(lambda found: values[found[1]], sentence)


def _value(name: str, situation: Situation) -> str:
    known = FIELDS.get(name)
    return known(situation) if known else ""


def _opened(situation: Situation) -> list[str]:
    return [
        step.target
        for step in situation.procedure.steps
        if isinstance(step, Open) and step.target in situation.hold.doors
    ]


def _least(stated: list[Stated | None]) -> str:
    known = [limit.quantity for limit in stated if limit is not None]
    return words.speed(min(known)) if known else ""


def _wind_to_open(situation: Situation) -> str:
    return _least([situation.hold.doors[name].wind.opening for name in _opened(situation)])


def _wind_while_open(situation: Situation) -> str:
    return _least([situation.hold.doors[name].wind.open for name in _opened(situation)])


def _locks_up(situation: Situation) -> str:
    """What must stand up now and is moved by hand: for the units aboard, and for the doors to close."""
    hold, standing = situation.hold, situation.standing
    needed = {
        name
        for door in hold.doors.values()
        for name, state in door.close_needs.items()
        if state is RestraintState.RAISED
    }
    for bay in standing.units.values():
        needed.update(hold.positions[bay].held_by if bay in hold.positions else ())
    return words.items(hold, [n for n, item in hold.restraints.items() if n in needed and item.by_hand])


def _empty_positions(situation: Situation) -> str:
    return words.bays([bay for bay in situation.hold.positions if not situation.standing.unit_in(bay)])


def _loaded_positions(situation: Situation) -> str:
    return words.bays([bay for bay in situation.hold.positions if situation.standing.unit_in(bay)])


def _loose(situation: Situation) -> bool:
    return words.is_loose(planned_unit(situation.procedure, situation.unit), situation.hold)


def _the_load(situation: Situation) -> str:
    return phrases.LOAD_HERE if _loose(situation) else phrases.A_UNIT


def _shut(situation: Situation) -> str:
    return phrases.SHUT_LOAD if _loose(situation) else phrases.SHUT_UNIT


def _nobody(situation: Situation) -> str:
    return phrases.CLEAR_BUT_FOR_CREW if situation.by_hand else phrases.CLEAR


def _the_door(situation: Situation) -> str:
    """The door that is worked next, by its name where the hold has another one."""
    doors = situation.hold.doors
    several = len(doors) > 1 and situation.door in doors
    return words.item(situation.hold, situation.door) if several else phrases.THE_DOOR


def _sill_up(situation: Situation) -> str:
    """What must stand up before the door that is closed next may close; else before any that was opened."""
    doors, closing = situation.hold.doors, situation.closing
    concerned = [closing] if closing in doors else _opened(situation)
    needed = [
        name
        for door in concerned
        for name, state in doors[door].close_needs.items()
        if state is RestraintState.RAISED
    ]
    return words.items(situation.hold, list(dict.fromkeys(needed))) if needed else ""


ALWAYS_FILLED = frozenset({"the-load", "shut", "nobody", "the-door"})
"""Fields that have a value whatever the data; only these may stand in an instruction."""

FIELDS: Mapping[str, Callable[[Situation], str]] = {
    "wind-to-open": _wind_to_open,
    "wind-while-open": _wind_while_open,
    "locks-up": _locks_up,
    "empty-positions": _empty_positions,
    "loaded-positions": _loaded_positions,
    "sill-up": _sill_up,
    "the-load": _the_load,
    "shut": _shut,
    "the-door": _the_door,
    "nobody": _nobody,
}
"""Every field that the hazard list may use."""
