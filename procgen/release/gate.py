"""Whether the differences from the last release have been answered.

An answer binds to its difference by a seal: over what the difference says, and the rules and the program
that found it. A draft that changes after it was answered needs a new answer where the difference changed.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from procgen.model.answer import Answer
from procgen.results.difference import Difference, DifferenceClass
from procgen.results.difference_rows import answer_line


@dataclass(frozen=True, slots=True)
class Owing:
    """A difference that owes an answer. `stale` is an answer that was given to another state of it."""

    difference: Difference
    seal: str
    stale: Answer | None = None

    @property
    def line(self) -> str:
        """The line that answers it, ready to be filled in and pasted into the station's `answers.yaml`."""
        return answer_line(self.difference, self.seal)


@dataclass(frozen=True, slots=True)
class Review:
    """What stands between differences and a release.

    `owing` are those without a valid answer, `given` the answers that count; `idle` those that answer
    nothing and were not given to an earlier release either.
    """

    owing: tuple[Owing, ...]
    given: tuple[Answer, ...]
    idle: tuple[Answer, ...]


@dataclass(frozen=True, slots=True)
class Unfit:
    """An answer that accepts nothing, and why: a half sentence that follows “the answer”."""

    answer: Answer
    why: str


def unfit(given: Iterable[Answer], author: str, date: str, since: str) -> tuple[Unfit, ...]:
    """The answers that nobody can have given to what a release changes.

    Such are those of the release's own author, who cannot accept what they wrote; those given after the day
    of the release, `date`; and those given before the day of the last one, `since` (empty where there is
    none), when there was nothing yet to compare with. Dates are ISO 8601 texts.
    """
    return tuple(Unfit(one, why) for one in given for why in _unfit(one, author, date, since))


def _unfit(one: Answer, author: str, date: str, since: str) -> Iterable[str]:
    if same_person(one.by, author):
        yield f"is by {one.by}, the author of the release: somebody else accepts it"
    if one.date > date:
        yield f"is of {one.date}, after the day of the release ({date})"
    if one.date < since:
        yield f"is of {one.date}, before the last release ({since}) that it compares with"


def same_person(one: str, other: str) -> bool:
    """Whether two names are one person's: capitals and spaces tell nobody apart."""
    return "".join(one.split()).casefold() == "".join(other.split()).casefold()


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
