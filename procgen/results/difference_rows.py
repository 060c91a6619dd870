"""Differences as they are listed: alike ones together, numbers with their change, causes in words."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from procgen.results.difference import (
    Accepted,
    Cause,
    CauseKind,
    Comparison,
    Difference,
    DifferenceClass,
    EditPlace,
    InputEdit,
    NumberChange,
    Reviewed,
)
from procgen.units import Quantity


@dataclass(frozen=True, slots=True)
class Row:
    """Differences that say the same of several things: one class, one change, one cause.

    `subject` says what differs, `things` what of: empty where there is only one.
    """

    subject: str
    things: tuple[str, ...]
    differences: tuple[Difference, ...]

    @property
    def first(self) -> Difference:
        """One that stands for all."""
        return self.differences[0]


def rows(
    differences: Iterable[Difference], also: Callable[[Difference], object] | None = None
) -> tuple[Row, ...]:
    """The differences in their order, alike ones in one row; `also` is what else must be alike."""
    groups: dict[object, list[Difference]] = {}
    for one in differences:
        thing, _, rest = one.subject.rpartition(": ")
        key = (
            one.classed,
            one.kind,
            one.hold,
            one.was.text if one.was else None,
            one.now.text if one.now else None,
            one.why,
            one.causes,
            (rest, thing.split(" ")[0]) if thing else one.identity,
            also(one) if also else None,
        )
        groups.setdefault(key, []).append(one)
    return tuple(_row(group) for group in groups.values())


def _row(group: list[Difference]) -> Row:
    if len(group) == 1:
        return Row(group[0].subject, (), tuple(group))
    rest = group[0].subject.rpartition(": ")[2]
    return Row(rest, tuple(one.subject.rpartition(": ")[0] for one in group), tuple(group))


def looked_at(row: Row, reviewed: Reviewed) -> tuple[Accepted, ...]:
    """The approvals that every difference of a row was part of."""
    said = [reviewed.looked.get(one.identity, ()) for one in row.differences]
    return tuple(one for one in said[0] if all(one in others for others in said))


def amount(change: Quantity) -> str:
    """A change with its sign, in full where it has at most three decimals, else cut away from nothing."""
    text = str(Quantity(abs(change.value), change.unit))
    if "/" in text.split(" ", maxsplit=1)[0] or len(text.split(" ")[-2].partition(".")[2]) > 3:
        text = Quantity(abs(change.value), change.unit).up(3)
    return f"{'−' if change.value < 0 else '+'}{text}"


def size(number: NumberChange) -> str:
    """`+100 kg (+2.5 %)`."""
    share = number.share
    return amount(number.change) + (f" ({_percent(share)})" if share is not None else "")


def _percent(share: Fraction) -> str:
    tenths = abs(share) * 1000
    whole = -(-tenths.numerator // tenths.denominator)
    return f"{'−' if share < 0 else '+'}{whole // 10}.{whole % 10} %"


def edit_words(place: EditPlace) -> str:
    """What an edit did, in one line: `combined: 4000 kg → 4100 kg`."""
    name = ".".join(str(part) for part in place.route) or "the file"
    if not place.was and not place.now:
        return f"{name} {'came' if not place.was_line else 'went' if not place.now_line else 'changed'}"
    if not place.was_line:
        return f"{name}: new, {place.now or 'empty'}"
    if not place.now_line:
        return f"{name}: gone, was {place.was or 'empty'}"
    return f"{name}: {place.was or 'nothing'} → {place.now or 'nothing'}"


def where(place: EditPlace) -> str:
    """`file:line`, in the newer version where it has one."""
    return f"{place.file}:{place.now_line or place.was_line}" + ("" if place.now_line else " (before)")


def earlier(place: EditPlace) -> str:
    """`file:line` in the older version, where that has it in another file than the newer; else empty."""
    return f"{place.was_file}:{place.was_line}" if place.was_file else ""


def places_of(cause: Cause, edits: Mapping[int, InputEdit]) -> tuple[EditPlace, ...]:
    """The places that a cause is to be looked up in; none where nobody knows which of them it is."""
    if cause.kind is CauseKind.UNKNOWN:
        return ()
    return tuple(place for number in cause.edits if number in edits for place in edits[number].places)


def cause_words(cause: Cause, edits: Mapping[int, InputEdit], root: str = "") -> str:
    """A cause in one line, without its edits; `root` is the folder before the names of files."""
    if cause.kind is CauseKind.PROGRAM:
        return "the program or its rules changed, no input did"
    if cause.kind is CauseKind.UNKNOWN:
        return _unknown(cause, edits, root)
    if cause.kind is CauseKind.TOGETHER:
        return f"{len(cause.edits)} edits together"
    places = sum(len(edits[number].places) for number in cause.edits if number in edits)
    return "one edit" if places == 1 else f"one change in {places} places"


def _unknown(cause: Cause, edits: Mapping[int, InputEdit], root: str) -> str:
    """That no line was found, and where something differs."""
    places = [place for number in cause.edits if number in edits for place in edits[number].places]
    files = dict.fromkeys(file for place in places for file in place.files)
    if not files:
        return "no line was found; the files say the same"
    inside = f"{root.rstrip('/')}/" if root else ""
    named = (file if file.startswith("<") else f"{inside}{file}" for file in files)
    return f"no single line was found; what differs is in {', '.join(named)}"


def by_number(comparison: Comparison) -> Mapping[int, InputEdit]:
    """The edits by their number."""
    return {edit.number: edit for edit in comparison.edits}


def answer_line(difference: Difference, seal: str) -> str:
    """The line of `answers.yaml` that accepts a difference; what is left to fill in is in capitals.

    The blanks stand in quotes: a reason is a sentence, and a comma in it would end the value.
    """
    name = json.dumps(difference.identity, ensure_ascii=False)
    return f'- {{difference: {name}, seal: "{seal}", by: "NAME", date: "YYYY-MM-DD", reason: "WHY"}}'


def headline(comparison: Comparison) -> str:
    """The counts: `3 loosened, 1 tightened, 0 changed, 2 wording`."""
    return ", ".join(f"{comparison.count(classed)} {classed}" for classed in DifferenceClass)
