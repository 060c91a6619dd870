"""From a station's releases and its draft to what changed since each revision: why, and who accepted it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from procgen.model.answer import Answer
from procgen.pipeline.comparing import hash_of, sealed_differences
from procgen.pipeline.explaining import explanation
from procgen.pipeline.releasing import review_of
from procgen.results.changes import Changed, Changes, Gate, Part
from procgen.results.difference import Accepted, Difference, InputEdit
from procgen.results.record import Record
from procgen.results.release import Chain, Explanation, Released


@dataclass(frozen=True, slots=True)
class Move:
    """All that one revision changed since the one before it; `revision` is 0 for the draft."""

    revision: int
    parts: Mapping[str, Part]
    explained: Explanation | None = None
    gate: Gate | None = field(default=None)


def moves_of(chain: Chain, records: Sequence[Record]) -> tuple[Move, ...]:
    """What each release of a chain changed, from the second on; `records` are those of the releases.

    A release that kept what it changed says so as it stood; of the others the records are compared.
    """
    return tuple(
        _released(one, was, now)
        for one, was, now in zip(chain.releases[1:], records, records[1:], strict=False)
    )


def draft_move(chain: Chain, last: Record, draft: Record, answers: Sequence[Answer], file: str) -> Move:
    """What the draft changes since the last release, and what it still owes; `file` holds the answers."""
    found = sealed_differences(last, draft)
    review = review_of(answers, chain, last, draft)
    given = {one.difference: one for one in review.given}
    owed = {one.difference.identity: one for one in review.owing}
    explained = explanation(last, draft)
    parts: dict[str, Part] = {}
    for one in explained.differences:
        name = one.identity
        part = _part(0, one, explained)
        owing = owed.get(name)
        parts[name] = replace(
            part,
            accepted=(_accepted(given[name], 0),) if name in given else (),
            line=owing.line if owing else "",
            stale=owing.stale if owing else None,
        )
    gate = Gate(
        last=len(chain.releases),
        file=file,
        hash=hash_of(found, draft),
        given=review.given,
        owed=tuple(one.line for one in review.owing),
        idle=review.idle,
    )
    return Move(0, parts, explained, gate)


def only_of(move: Move, since: int) -> Changes:
    """What one revision changed since the one before it, number `since`."""
    changed = tuple(Changed(part.difference, (part,)) for part in move.parts.values())
    return Changes(since, changed, tuple(_idle([move])))


def changes_since(since: int, was: Record, now: Record, moves: Sequence[Move]) -> Changes:
    """What differs between revision `since` and a later one; `moves` are those of the revisions in between
    and of the later one, the oldest first.
    """
    changed = tuple(
        Changed(one, tuple(move.parts[one.identity] for move in moves if one.identity in move.parts))
        for one, _ in sealed_differences(was, now)
    )
    return Changes(since, changed, tuple(_idle(moves)))


def _idle(moves: Sequence[Move]) -> Iterator[InputEdit]:
    """The edits that changed nothing that is published."""
    for move in moves:
        if move.explained is not None:
            idle = move.explained.idle
            yield from (edit for edit in move.explained.edits if edit.number in idle)


def _released(one: Released, was: Record, now: Record) -> Move:
    about = one.release
    told = about.explained
    found = told.differences if told else [each for each, _ in sealed_differences(was, now)]
    given = {answer.difference: answer for answer in about.answers}
    parts: dict[str, Part] = {}
    for difference in found:
        name = difference.identity
        looked = tuple(
            Accepted(approval.by, approval.date, approval.remark, about.number)
            for approval in one.approvals
            if name in approval.accepted
        )
        named = (_accepted(given[name], about.number),) if name in given else ()
        parts[name] = replace(_part(about.number, difference, told), accepted=named, looked=looked)
    return Move(about.number, parts, told)


def _part(revision: int, difference: Difference, told: Explanation | None) -> Part:
    edits = {edit.number: edit for edit in told.edits} if told else {}
    return Part(revision, difference, edits, recorded=told is not None)


def _accepted(answer: Answer, revision: int) -> Accepted:
    return Accepted(answer.by, answer.date, answer.reason, revision)
