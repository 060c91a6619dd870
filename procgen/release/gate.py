"""Whether the differences from the last release have been answered.

An answer binds to its difference by a seal: over what the difference says, and the rules and the program
that found it. A draft that changes after it was answered needs a new answer where the difference changed.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from procgen.model.answer import Answer
from procgen.release.codec import canonical
from procgen.results.difference import Difference, DifferenceClass


@dataclass(frozen=True, slots=True)
class Owing:
    """A difference that owes an answer. `stale` is an answer that was given to another state of it."""

    difference: Difference
    seal: str
    stale: Answer | None = None

    @property
    def line(self) -> str:
        """The line that answers it, ready to be filled in and pasted into the station's `answers.yaml`."""
        name = canonical(self.difference.identity)
        return f'- {{difference: {name}, seal: "{self.seal}", by: NAME, date: "YYYY-MM-DD", reason: WHY}}'


@dataclass(frozen=True, slots=True)
class Review:
    """What stands between differences and a release.

    `owing` are those without a valid answer, `given` the answers that count; `idle` those that answer
    nothing and were not given to an earlier release either.
    """

    owing: tuple[Owing, ...]
    given: tuple[Answer, ...]
    idle: tuple[Answer, ...]


def review(
    differences: Iterable[tuple[Difference, str]], answers: Iterable[Answer], spent: Iterable[Answer]
) -> Review:
    """Hold answers against differences, each with its seal: what is loosened owes one.

    `spent` are the answers that earlier releases carry.
    """
    past = set(spent)
    fresh = [answer for answer in answers if answer not in past]
    by_seal = {(answer.difference, answer.seal): answer for answer in fresh}
    by_name = {answer.difference: answer for answer in fresh}
    owing: list[Owing] = []
    given: list[Answer] = []
    for difference, mark in differences:
        answer = by_seal.get((difference.identity, mark))
        if answer is not None:
            given.append(answer)
        elif difference.classed is DifferenceClass.LOOSENED:
            owing.append(Owing(difference, mark, by_name.get(difference.identity)))
    used = {*given, *(one.stale for one in owing if one.stale)}
    return Review(tuple(owing), tuple(given), tuple(answer for answer in fresh if answer not in used))
