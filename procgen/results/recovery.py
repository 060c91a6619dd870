"""What to do when something goes wrong half way: for every step of a procedure and every mishap."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from procgen.model.hold import Hold
from procgen.model.step import Procedure
from procgen.model.words import OUTSIDE
from procgen.results.plan import Aim, Reason
from procgen.results.state import State


class Mishap(StrEnum):
    """What can go wrong at a step, in the order in which it is looked up."""

    POWER = "power"  # the power of the hold fails
    DRIVE = "drive"  # the drive under the unit on its way fails
    JAMMED = "jammed"  # the unit on its way cannot be moved
    PERSON = "person"  # somebody has to go in


MISHAPS: Mapping[Mishap, str] = {
    Mishap.POWER: "The power fails",
    Mishap.DRIVE: "The drive under the unit fails",
    Mishap.JAMMED: "The unit is jammed",
    Mishap.PERSON: "Somebody has to go in",
}
"""What has gone wrong, as people would say it."""
IN_FOR_ELSE = "Somebody has to go in for anything but the work itself"
"""So, where going in is the work."""


def is_loose(hold: Hold) -> bool:
    """Whether people carry everything into a hold: it takes loose loads only."""
    return all(hold.bays[name].bulk for name in hold.positions if name in hold.bays)


def mishap_words(mishap: Mishap, hold: Hold) -> str:
    """What has gone wrong, as people would say it in this hold."""
    return IN_FOR_ELSE if mishap is Mishap.PERSON and is_loose(hold) else MISHAPS[mishap]


class Outcome(StrEnum):
    """What a way leads to."""

    BROUGHT_HOME = "brought home"  # the unit gets where it was going, or stays in its position; closed
    TAKEN_BACK = "taken back"  # the unit goes back to where it came from; closed
    SECURED = "secured"  # the unit is secured where it stands, all else stays; closed
    OTHERS_OUT = "others out"  # so it is, and everything else is taken out; closed
    GONE_ON = "gone on"  # the procedure goes on where it was
    LATER = "later"  # not at this step: a later one has to be done first
    CALL = "call"  # no way could be proven: made safe, and whom to call


OUTCOMES = {
    Aim.FINISH: Outcome.BROUGHT_HOME,
    Aim.TAKE_OUT: Outcome.TAKEN_BACK,
    Aim.SECURE: Outcome.SECURED,
    Aim.EMPTY: Outcome.OTHERS_OUT,
}
"""What a recovery with an aim leads to."""


@dataclass(frozen=True, slots=True)
class Answer:
    """The way out of one mishap: stop and make safe, then on; simulated with no finding.

    `procedure` starts in `start`, the state in which the mishap happened; its section before-you-start stops
    and makes safe. Where the outcome is to call, it only makes safe, `unit` is guarded and `reasons` say why
    there is no way. `until` is the index of the step that has to be done first, where the answer is later.
    `title` says in one line what it comes to.
    """

    outcome: Outcome
    procedure: Procedure
    start: State
    unit: str = ""
    reasons: tuple[Reason, ...] = ()
    until: int | None = None
    title: str = ""


@dataclass(frozen=True, slots=True)
class Case:
    """A mishap at one step of a procedure, by the step's index.

    `places` is where the unit on its way stands then: one bay, the two places between which it stands, or
    nothing where none is on its way.
    """

    index: int
    mishap: Mishap
    places: tuple[str, ...]
    answer: Answer


def where(places: tuple[tuple[str, ...], ...]) -> str:
    """Where the unit stands: `in 43 or 42, or between 44 and 43`."""
    places = tuple(dict.fromkeys(places))
    whole = [place[0] for place in places if len(place) == 1]
    parts = []
    if OUTSIDE in whole:
        parts.append("on the platform")
    inside = [place for place in whole if place != OUTSIDE]
    if inside:
        parts.append(f"in {_or(inside)}")
    gaps = [place for place in places if len(place) == 2]
    parts += [f"between {_named(one)} and {_named(other)}" for one, other in gaps]
    return ", or ".join(parts)


def _named(place: str) -> str:
    return "the platform" if place == OUTSIDE else place


def _or(names: list[str]) -> str:
    *most, last = names
    return f"{', '.join(most)} or {last}" if most else last
