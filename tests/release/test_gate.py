"""What was loosened needs an answer of its own; an answer counts only for what it was given to."""

from __future__ import annotations

from procgen.model.answer import Answer
from procgen.release import review
from procgen.results.difference import Difference, DifferenceClass, DifferenceKind, Side


def difference(identity: str, classed: DifferenceClass) -> Difference:
    return Difference(
        identity, DifferenceKind.CHANGED, classed, "limit", "it rose", Side("1 kg"), Side("2 kg")
    )


def answer(identity: str, seal: str) -> Answer:
    return Answer(identity, seal, "B. Reviewer (invented)", "2026-06-01", "Reason.")


LOOSE = difference("SR-AFT/limit/41", DifferenceClass.LOOSENED)


def test_only_what_is_loosened_owes_an_answer() -> None:
    others = [difference(str(kind), kind) for kind in DifferenceClass if kind is not DifferenceClass.LOOSENED]
    found = review([(LOOSE, "s1"), *((one, "x") for one in others)], (), ())
    assert [one.difference for one in found.owing] == [LOOSE]
    assert found.owing[0].line == (
        '- {difference: "SR-AFT/limit/41", seal: "s1", by: "NAME", date: "YYYY-MM-DD", reason: "WHY"}'
    )


def test_an_answer_with_the_seal_counts() -> None:
    given = answer(LOOSE.identity, "s1")
    found = review([(LOOSE, "s1")], [given], ())
    assert (found.owing, found.given, found.idle) == ((), (given,), ())


def test_an_answer_to_another_state_of_the_difference_does_not_count() -> None:
    stale = answer(LOOSE.identity, "s0")
    found = review([(LOOSE, "s1")], [stale], ())
    assert [one.stale for one in found.owing] == [stale]
    assert (found.given, found.idle) == ((), ())


def test_answers_of_past_releases_may_stay_and_count_for_nothing_again() -> None:
    past = answer(LOOSE.identity, "s1")
    assert review([], [past], [past]).idle == ()
    again = review([(LOOSE, "s1")], [past], [past])
    assert [one.stale for one in again.owing] == [None]


def test_an_answer_that_answers_nothing_is_named() -> None:
    idle = answer("gone", "s1")
    assert review([(LOOSE, "s1")], [answer(LOOSE.identity, "s1"), idle], ()).idle == (idle,)
