"""What becomes of one cell of the out-of-service matrix: looser, stricter or another way of the same."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from procgen.diff.cell_words import ToldCell
from procgen.diff.derived import say_the_same, texts_of
from procgen.results.difference import DifferenceClass
from procgen.results.matrix import Answer
from procgen.results.page import LeftLimit
from procgen.units import Quantity

_LOOSER, _STRICTER, _OTHER = DifferenceClass.LOOSENED, DifferenceClass.TIGHTENED, DifferenceClass.CHANGED


@dataclass(frozen=True, slots=True)
class Change:
    """The class of a change and why.

    `repeats`: it only follows a difference that the hold's data, tables or procedures show themselves.
    `worded`: only words differ, or the cell came or went with its position or item.
    """

    classed: DifferenceClass
    why: str
    repeats: bool = False
    worded: bool = False


def change_of(was: ToldCell | None, now: ToldCell | None) -> Change | None:
    """How the answer for one position changes, the gravest of all that is true; None where it says the same.

    The warnings of its procedure are told of the whole matrix, hazard by hazard.
    """
    if was is None or now is None:
        return None if was is now else Change(_OTHER, "the position or the item is new or gone", True, True)
    found = [*_outcomes(was, now), *_limits(was, now)]
    if not found and not _same_words(was, now):
        found = [Change(_OTHER, "the same answer, told or reached otherwise", repeats=True, worded=True)]
    if not found:
        return None
    order = list(DifferenceClass)
    gravest = min(found, key=lambda one: (order.index(one.classed), one.repeats))
    return Change(
        gravest.classed, gravest.why, all(one.repeats for one in found), all(one.worded for one in found)
    )


def _outcomes(was: ToldCell, now: ToldCell) -> Iterator[Change]:
    if was.usable != now.usable:
        yield Change(_LOOSER, "it is usable now") if now.usable else Change(_STRICTER, "not usable any more")
        return
    if _ways(was) != _ways(now):
        low, high = _grave(was), _grave(now)
        if low == high:
            yield Change(_OTHER, "another answer")
        else:
            yield (
                Change(_LOOSER, "the answer is less grave")
                if high < low
                else Change(_STRICTER, "the answer is graver")
            )
    if was.usable and was.only_alone != now.only_alone:
        yield (
            Change(_STRICTER, "only alone any more")
            if now.only_alone
            else Change(_LOOSER, "it can be worked together with others now")
        )
    low_crew, high_crew = was.answer.crew, now.answer.crew
    if low_crew and high_crew and low_crew != high_crew:
        yield Change(_LOOSER, "fewer people") if high_crew < low_crew else Change(_STRICTER, "more people")
    elif low_crew != high_crew and _ways(was) == _ways(now):
        yield Change(_OTHER, "another crew")


def _ways(told: ToldCell) -> tuple[Answer, ...]:
    """The answers without that of a lower limit: how much that is says more."""
    return tuple(one for one in told.answer.answers if one not in (Answer.LOWER_LIMIT, Answer.AS_BEFORE))


def _grave(told: ToldCell) -> int:
    return max((list(Answer).index(one) for one in _ways(told)), default=0)


def _limits(was: ToldCell, now: ToldCell) -> Iterator[Change]:
    """What may be carried. The limits of the hold say why."""
    if not (was.usable and now.usable):
        return
    names = dict.fromkeys(limit.unit_type for told in (was, now) for limit in told.answer.limits)
    ways = [_rise(_left(was, now, name), _left(now, was, name)) for name in names]
    if any(way > 0 for way in ways):
        yield Change(_LOOSER, "it may carry more", repeats=True)
    elif any(way < 0 for way in ways):
        yield Change(_STRICTER, "it may carry less", repeats=True)


def _left(told: ToldCell, other: ToldCell, unit_type: str) -> Quantity | None:
    """What may be carried of a type with the item out of service; None for nothing.

    A type that is not named has its whole limit: that of the hold, or else the one that the other side names.
    """
    for limit in told.answer.limits:
        if limit.unit_type == unit_type:
            return limit.now
    if unit_type in told.whole:
        return told.whole[unit_type]
    return next(limit.was for limit in other.answer.limits if limit.unit_type == unit_type)


def _rise(was: Quantity | None, now: Quantity | None) -> int:
    """Over 0 where more may be carried than before, below 0 where less."""
    if was is None or now is None:
        return (now is not None) - (was is not None)
    return (now > was) - (now < was)


def _same_words(was: ToldCell, now: ToldCell) -> bool:
    both = was.warnings.keys() & now.warnings.keys()
    worded = ([*texts_of([told.warnings[name] for name in sorted(both)])] for told in (was, now))
    if not say_the_same(*worded) or not say_the_same(was.procedure, now.procedure):
        return False
    same = (say_the_same(one, other) for one, other in zip(was.texts, now.texts, strict=True))
    return all(same) and [_key(one) for one in was.answer.limits] == [_key(one) for one in now.answer.limits]


def _key(limit: LeftLimit) -> tuple[object, ...]:
    return limit.unit_type, limit.was, limit.now, limit.governs
