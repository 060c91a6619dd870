"""Names: which known one is nearest to an unknown one, and how messages call things."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from difflib import SequenceMatcher

from procgen.model.controls import Control, Drive, Panel
from procgen.model.hold import Door, Restraint
from procgen.model.words import RestraintKind, RestraintState

_LEAST = 0.6  # below this two names have nothing to do with one another


def nearest(name: str, known: Iterable[str]) -> tuple[str, ...]:
    """The known names nearest to `name`, all equally near; none where nothing is near.

    Two swapped letters count as nearer than a letter that is another.
    """
    rated = [(_likeness(name, other), other) for other in known]
    best = max((rate for rate, _ in rated), default=(False, 0.0))
    return tuple(other for rate, other in rated if rate == best and best[1] >= _LEAST)


def _likeness(name: str, other: str) -> tuple[bool, float]:
    mine, theirs = name.lower(), other.lower()
    ratio = SequenceMatcher(None, mine, theirs, autojunk=False).ratio()
    return ratio >= _LEAST and sorted(mine) == sorted(theirs), ratio


def did_you_mean(name: str, known: Sequence[str], what: str) -> str:
    """A suggestion for an unknown name: the nearest known one, or the list of them all."""
    near = nearest(name, known)
    if near:
        return f"did you mean {either(near)}?"
    return f"name one of {listed(known)}" if known else f"the hold has no {what}"


def listed(words: Sequence[str]) -> str:
    """`a, b and c`."""
    return _joined(words, "and")


def either(words: Sequence[str]) -> str:
    """`a, b or c`."""
    return _joined(words, "or")


def _joined(words: Sequence[str], last: str) -> str:
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def called(thing: Restraint | Control | Panel | Door | Drive) -> str:
    """What people call a thing, with the name the YAML gives it where that is not plain from it."""
    plain = thing.name.replace("-", " ")
    return thing.title if thing.title.lower() == plain.lower() else f"{thing.title} ({thing.name})"


def stands(restraint: Restraint, state: RestraintState) -> str:
    """`up` or `down`; for a net `fitted` or `removed`."""
    if restraint.kind is RestraintKind.NET:
        return "fitted" if state is RestraintState.RAISED else "removed"
    return "up" if state is RestraintState.RAISED else "down"


def verb_for(restraint: Restraint, state: RestraintState) -> str:
    """The verb that brings a restraint into a state."""
    if restraint.kind is RestraintKind.NET:
        return "fit" if state is RestraintState.RAISED else "remove"
    return "raise" if state is RestraintState.RAISED else "lower"
