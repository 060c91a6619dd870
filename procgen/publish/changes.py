"""The pages of what changed, and why: since the revision before, and since each one before that."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from procgen.publish.against import against, said
from procgen.publish.causes import ShownCause, shown_causes, shown_edit
from procgen.publish.words import plain
from procgen.results.changes import Changed, Changes, Part
from procgen.results.difference import Accepted, Difference, DifferenceClass
from procgen.results.difference_rows import Row, rows, size
from procgen.results.edition import Edition

_LONGEST = 60
"""How much of a text one revision's part quotes: the row quotes all that differs."""


@dataclass(frozen=True, slots=True)
class ShownPart:
    """What one revision did: `revision` names it, `was` and `now` are empty where they are the row's own.

    `nobody` says that it owes a named acceptance which is not there.
    """

    revision: str
    was: str
    now: str
    why: str
    recorded: bool
    causes: tuple[ShownCause, ...]
    accepted: tuple[Accepted, ...]
    looked: tuple[Accepted, ...]
    nobody: bool
    stale: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ShownChange:
    """One row: what changed, how much, and the parts of the revisions since; `lines` accept it.

    `anchors` are the identities of all its differences.
    """

    anchors: tuple[str, ...]
    subject: str
    things: tuple[str, ...]
    was: Markup
    now: Markup
    size: str
    why: str
    parts: tuple[ShownPart, ...]
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ShownChanges:
    """One page. `file` is its name, `classes` every class with its rows and the count of its differences.

    `nobody` counts the loosened ones that nobody has accepted by name. `idle` are edits without effect.
    """

    file: str
    since: int
    classes: tuple[tuple[DifferenceClass, int, tuple[ShownChange, ...]], ...]
    nobody: int
    idle: tuple[tuple[str, str], ...]

    @property
    def loosened(self) -> int:
        """How many differences make it less safe."""
        return self.classes[0][1]

    @property
    def count(self) -> int:
        """How many differences there are."""
        return sum(count for _, count, _ in self.classes)


def changes_file(edition: Edition, since: int) -> str:
    """The page of what changed since a revision, without its ending."""
    return "changes" if since == edition.against else f"changes-since-{since}"


def changes_shown(edition: Edition, changes: Changes) -> ShownChanges:
    """What the page of what changed since a revision shows."""
    by_identity = {one.difference.identity: one for one in changes.changed}

    def alike(one: Difference) -> object:
        return tuple(map(_said, by_identity[one.identity].parts))

    classes = []
    for classed in DifferenceClass:
        found = [one.difference for one in changes.changed if one.difference.classed is classed]
        shown = tuple(
            _row(row, [by_identity[one.identity] for one in row.differences]) for row in rows(found, alike)
        )
        classes.append((classed, len(found), shown))
    return ShownChanges(
        file=changes_file(edition, changes.since),
        since=changes.since,
        classes=tuple(classes),
        nobody=sum(_unanswered(one) for one in changes.changed),
        idle=tuple(shown_edit(one.first) for one in changes.idle),
    )


def _said(part: Part) -> object:
    """What a part says beside the name of what it is about."""
    one = part.difference
    sides = tuple(side.text if side else None for side in (one.was, one.now))
    answers = (part.accepted, part.looked, bool(part.line), part.stale and part.stale.by)
    return part.revision, one.why, one.causes, sides, answers


def _unanswered(one: Changed) -> bool:
    """Whether a loosened difference has a part that nobody accepted by name, or none that anybody could."""
    if one.difference.classed is not DifferenceClass.LOOSENED:
        return False
    return any(part.unanswered for part in one.parts) or not any(part.accepted for part in one.parts)


def _row(row: Row, alike: list[Changed]) -> ShownChange:
    first = row.first
    was, now = _marked(first)
    hold = f"{first.hold}: " if first.hold else ""
    subject = f"{hold}{plain(row.subject)}"
    return ShownChange(
        anchors=tuple(one.identity for one in row.differences),
        subject=subject[:1].upper() + subject[1:],
        things=tuple(plain(thing) for thing in row.things),
        was=was,
        now=now,
        size=size(first.number) if first.number else "",
        why=first.why,
        parts=tuple(_parts(first, alike[0].parts)),
        lines=tuple(part.line for one in alike for part in one.parts if part.line),
    )


def _marked(one: Difference) -> tuple[Markup, Markup]:
    """Both sides, the words marked that the other does not have; of long ones only what differs."""
    if one.was is None or one.now is None or one.number is not None:
        was, now = _sides(one)
        return said(was), said(now)
    return against(one.was.text, one.now.text, brief=True)


def _sides(one: Difference) -> tuple[str, str]:
    was, now = (plain(side.text) if side else "nothing" for side in (one.was, one.now))
    return was, now


def _parts(net: Difference, parts: tuple[Part, ...]) -> Iterator[ShownPart]:
    for part in parts:
        one = part.difference
        own = _sides(one) != _sides(net)
        was, now = _sides(one) if own else ("", "")
        yield ShownPart(
            revision=f"Revision {part.revision}" if part.revision else "The draft",
            was=_brief(was),
            now=_brief(now),
            why=one.why if one.why != net.why else "",
            recorded=part.recorded,
            causes=shown_causes(one.causes, part.edits),
            accepted=part.accepted,
            looked=part.looked,
            nobody=part.unanswered,
            stale=(part.stale.by, part.stale.date) if part.stale else (),
        )


def _brief(text: str) -> str:
    return text if len(text) <= _LONGEST else f"{text[:_LONGEST]}…"
