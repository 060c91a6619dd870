"""What becomes of every position with an item out of service, ready to be laid out on pages and cards."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from procgen.model.hold import Hold
from procgen.model.words import Operation
from procgen.publish.limit_rows import OPERATION_WORDS
from procgen.publish.words import both, capital
from procgen.results.matrix import Answer
from procgen.results.out_of_service import title_of
from procgen.results.page import (
    HoldSite,
    ItemAnswer,
    ItemOutOfService,
    LeftLimit,
    OutOfServiceGuide,
)

_WORDS = {
    Answer.AS_BEFORE: "as before",
    Answer.OTHER_STEPS: "other steps",
    Answer.BY_HAND: "by hand",
    Answer.LOWER_LIMIT: "lower limit",
    Answer.NOT_USABLE: "not usable",
}


@dataclass(frozen=True, slots=True)
class Differing:
    """The steps that differ at some positions: what is left out and what is done instead."""

    positions: str
    left_out: tuple[str, ...]
    put_in: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Told:
    """What becomes of some positions in one operation.

    `grave` is the gravest answer, by which it is marked; `short` says all answers in a few words. `procedure`
    names the short procedure, empty where there is none.
    """

    operation: str
    positions: str
    grave: Answer
    short: str
    limits: tuple[str, ...]
    reasons: tuple[str, ...]
    only_alone: tuple[str, ...]
    differing: tuple[Differing, ...]
    procedure: str


@dataclass(frozen=True, slots=True)
class ShownFailure:
    """Ways of one item to fail that are answered alike. `anchors` are their places on the page."""

    anchors: tuple[str, ...]
    words: str
    told: tuple[Told, ...]


@dataclass(frozen=True, slots=True)
class ShownItem:
    """One item with the ways in which it can fail."""

    name: str
    title: str
    failures: tuple[ShownFailure, ...]


@dataclass(frozen=True, slots=True)
class Cell:
    """One position in one operation in the table: the answer, in few letters, and where the rest stands."""

    grave: Answer
    short: str
    href: str


@dataclass(frozen=True, slots=True)
class Row:
    """One item out of service in the table, with a cell for each position."""

    anchor: str
    words: str
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class ShownMatrix:
    """A hold's matrix: the tables by operation in words, and all items."""

    positions: tuple[str, ...]
    tables: tuple[tuple[str, tuple[Row, ...]], ...]
    items: tuple[ShownItem, ...]


def matrix_shown(hold: HoldSite, unit: str) -> ShownMatrix | None:
    """The matrix of a hold; None where there is none (in releases from before there was one)."""
    guide = hold.out_of_service
    if guide is None:
        return None
    positions = tuple(hold.hold.positions)
    tables = tuple(
        (OPERATION_WORDS[operation], tuple(_row(hold, guide, one, operation) for one in guide.items))
        for operation in Operation
    )
    return ShownMatrix(positions, tables, items_shown(hold, unit))


def items_shown(hold: HoldSite, unit: str, operation: Operation | None = None) -> tuple[ShownItem, ...]:
    """Every item of a hold with its failures, those answered alike together; for one operation or all."""
    guide = hold.out_of_service
    if guide is None:
        return ()
    by_item: dict[str, list[ItemOutOfService]] = {}
    for one in guide.items:
        by_item.setdefault(one.item, []).append(one)
    return tuple(
        ShownItem(
            name,
            capital(title_of(hold.hold, name)),
            tuple(_failures(guide, hold.hold, ones, unit, operation)),
        )
        for name, ones in by_item.items()
    )


def anchor_of(one: ItemOutOfService) -> str:
    """The place of an item out of service on the matrix page."""
    return f"{one.item}-{one.failure}"


def _failures(
    guide: OutOfServiceGuide,
    hold: Hold,
    ones: Sequence[ItemOutOfService],
    unit: str,
    operation: Operation | None,
) -> Iterator[ShownFailure]:
    groups: dict[tuple[Told, ...], list[ItemOutOfService]] = {}
    for one in ones:
        groups.setdefault(tuple(_told(guide, one, unit, operation)), []).append(one)
    for told, alike in groups.items():
        words = ", ".join(one.words.removeprefix(title_of(hold, one.item)).strip() for one in alike)
        yield ShownFailure(tuple(anchor_of(one) for one in alike), words, told)


def _told(
    guide: OutOfServiceGuide, one: ItemOutOfService, unit: str, operation: Operation | None
) -> Iterator[Told]:
    """The answers of an item; those that differ only in steps are told together."""
    groups: dict[object, list[ItemAnswer]] = {}
    for answer in one.answers:
        if operation in (None, answer.operation):
            key = (
                answer.operation,
                answer.answers,
                answer.crew,
                tuple(one for one in answer.limits if _is_told(answer, one)),
                answer.reasons,
                answer.only_alone,
                answer.procedure,
            )
            groups.setdefault(key, []).append(answer)
    for alike in groups.values():
        first = alike[0]
        texts = guide.texts
        yield Told(
            operation=OPERATION_WORDS[first.operation],
            positions=", ".join(name for answer in alike for name in answer.positions),
            grave=first.answers[-1],
            short=short_words(first),
            limits=tuple(_limit(one, unit) for one in first.limits if _is_told(first, one)),
            reasons=tuple(texts[number] for number in first.reasons),
            only_alone=tuple(texts[number] for number in first.only_alone),
            differing=tuple(
                Differing(
                    ", ".join(answer.positions),
                    tuple(texts[number] for number in answer.left_out),
                    tuple(texts[number] for number in answer.put_in),
                )
                for answer in alike
                if answer.left_out or answer.put_in
            ),
            procedure="" if first.procedure is None else guide.procedures[first.procedure].name,
        )


def _is_told(answer: ItemAnswer, limit: LeftLimit) -> bool:
    """Whether a limit is told: what is not usable carries nothing, so no "at most" stands beside it."""
    if limit.now is not None:
        return Answer.NOT_USABLE not in answer.answers
    return not answer.reasons


def short_words(answer: ItemAnswer) -> str:
    """All answers in a few words: `other steps, by hand with 7 people`."""
    return ", ".join(
        f"by hand with {answer.crew} people" if one is Answer.BY_HAND else _WORDS[one]
        for one in answer.answers
    )


def _in_table(answer: ItemAnswer) -> str:
    """All answers in as few letters as can be; that the steps are others goes without saying beside more."""
    more = tuple(one for one in answer.answers if one is not Answer.OTHER_STEPS)
    shown = more or answer.answers
    return ", ".join(f"by hand: {answer.crew}" if one is Answer.BY_HAND else _WORDS[one] for one in shown)


def _limit(limit: LeftLimit, unit: str) -> str:
    was = both(limit.was, unit)
    if limit.now is None:
        return f"{limit.unit_type}: none (before: {was})"
    return f"{limit.unit_type}: at most {both(limit.now, unit)}, {limit.governs} (before: {was})"


def _row(hold: HoldSite, guide: OutOfServiceGuide, one: ItemOutOfService, operation: Operation) -> Row:
    by_position = {
        name: answer for answer in one.answers if answer.operation is operation for name in answer.positions
    }
    anchor = anchor_of(one)
    cells = tuple(_cell(hold, guide, by_position[name], anchor) for name in hold.hold.positions)
    return Row(anchor, one.words, cells)


def _cell(hold: HoldSite, guide: OutOfServiceGuide, answer: ItemAnswer, anchor: str) -> Cell:
    grave = answer.answers[-1]
    href = f"#{anchor}"
    if answer.procedure is not None:
        href = f"{hold.hold.name}/{guide.procedures[answer.procedure].name}.html"
    return Cell(grave, _in_table(answer), href)
