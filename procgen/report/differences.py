"""Differences as terminal text and as Markdown for a pull request."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from procgen.report.places import shown_path
from procgen.results.difference import (
    Accepted,
    Comparison,
    Difference,
    DifferenceClass,
    DifferenceKind,
    EditPlace,
    InputEdit,
    Reviewed,
)
from procgen.results.difference_rows import (
    Row,
    answer_line,
    by_number,
    cause_words,
    earlier,
    edit_words,
    headline,
    looked_at,
    places_of,
    rows,
    size,
    where,
)

_MOST_PLACES = 3


def differences_text(reviewed: Reviewed, root: str = "") -> str:
    """Everything that differs, the gravest first: what was and is, why the class, cause, what is owed."""
    comparison = reviewed.comparison
    edits = by_number(comparison)
    lines = [f"{comparison.was.label} → {comparison.now.label}", *_head(reviewed), ""]
    for classed in DifferenceClass:
        found = [one for one in comparison.differences if one.classed is classed]
        if not found:
            continue
        lines.append(f"{str(classed).upper()} ({len(found)}): owes {classed.owes}")
        for row in rows(found):
            lines += [f"  {line}" for line in _row_lines(row, reviewed, edits, root)]
        lines.append("")
    lines += _idle_lines(comparison, edits, root)
    return "\n".join(lines).rstrip()


def _head(reviewed: Reviewed) -> Iterator[str]:
    comparison = reviewed.comparison
    if not comparison.differences:
        yield "Nothing that is published differs."
    else:
        yield f"{headline(comparison)}; still owed: {len(reviewed.owing)}"
    count = len(comparison.edits)
    if count:
        idle = f", {len(comparison.idle)} of them without effect" if comparison.idle else ""
        yield f"{count} edit{'' if count == 1 else 's'} of the inputs{idle}"
    if reviewed.approved:
        yield f"Approved by {', '.join(reviewed.approved)}"
    yield f"Differences {reviewed.hash[:16]}"


def _row_lines(row: Row, reviewed: Reviewed, edits: Mapping[int, InputEdit], root: str) -> Iterator[str]:
    yield _title(row)
    yield f"    {_change(row.first)}"
    yield f"    why {row.first.classed}: {row.first.why}"
    for line in _cause_lines(row.first, edits, root):
        yield f"    {line}"
    for one in row.differences:
        for given in reviewed.accepted.get(one.identity, ()):
            yield f"    accepted by {given.by} on {given.date}{_for(given)}: {given.reason}"
    if not any(one.identity in reviewed.accepted for one in row.differences):
        for given in looked_at(row, reviewed):
            yield f"    looked at by {given.by} on {given.date}{_for(given)}"
    owing = [one for one in row.differences if one.identity in reviewed.owing]
    if owing and reviewed.answers and row.first.classed is DifferenceClass.LOOSENED:
        yield f"    to accept, add to {shown_path(reviewed.answers, root)}:"
        for one in owing:
            yield f"      {answer_line(one, reviewed.seals[one.identity])}"


def _for(given: Accepted) -> str:
    return f" (revision {given.revision})" if given.revision else ""


def _title(row: Row) -> str:
    first = row.first
    hold = f"{first.hold}: " if first.hold else ""
    page = f" [{first.page}]" if first.page else ""
    things = f" — {', '.join(row.things)}" if row.things else ""
    return f"{hold}{row.subject}{things}{page}"


def _change(one: Difference) -> str:
    kind = {
        DifferenceKind.ADDED: "came: ",
        DifferenceKind.REMOVED: "went: ",
        DifferenceKind.MOVED: "moved: ",
        DifferenceKind.RENAMED: "renamed: ",
    }.get(one.kind, "")
    was, now = (_plain(side.text) if side else "" for side in (one.was, one.now))
    text = f"{kind}{was} → {now}" if one.was and one.now else f"{kind}{was or now}"
    return f"{text}  {size(one.number)}" if one.number else text


def _plain(text: str) -> str:
    return " ".join(text.replace("**", "").split())


def _cause_lines(one: Difference, edits: Mapping[int, InputEdit], root: str) -> Iterator[str]:
    for cause in one.causes:
        yield f"cause: {cause_words(cause, edits, root)}"
        places = places_of(cause, edits)
        for place in places[:_MOST_PLACES]:
            yield f"  {_edit(place, root)}"
        if len(places) > _MOST_PLACES:
            yield f"  and {len(places) - _MOST_PLACES} more places"


def _idle_lines(comparison: Comparison, edits: Mapping[int, InputEdit], root: str) -> Iterator[str]:
    if comparison.idle:
        yield "WITHOUT EFFECT: made alone and left out, these change nothing that is published"
    for number in comparison.idle:
        place = edits[number].first
        yield f"  {_edit(place, root)}"


def _edit(place: EditPlace, root: str) -> str:
    """Where an edit is, in both versions where each has a file of its own, and what it did."""
    before = f" (before: {shown_path(earlier(place), root)})" if earlier(place) else ""
    return f"{shown_path(where(place), root)}{before}  {edit_words(place)}"


def differences_markdown(reviewed: Reviewed, root: str = "") -> str:
    """The same as Markdown for a pull request: a table for each class, then the lines that accept."""
    comparison = reviewed.comparison
    edits = by_number(comparison)
    lines = [f"## {_cell(comparison.was.label)} → {_cell(comparison.now.label)}", ""]
    lines += [f"{line}  " for line in _head(reviewed)]
    for classed in DifferenceClass:
        found = [one for one in comparison.differences if one.classed is classed]
        if not found:
            continue
        lines += ["", f"### {str(classed).capitalize()} ({len(found)}): owes {classed.owes}", ""]
        lines += ["| what | was → is | why | cause | accepted |", "|---|---|---|---|---|"]
        lines += [_markdown_row(row, reviewed, edits, root) for row in rows(found)]
    owing = [
        one
        for one in comparison.differences
        if one.identity in reviewed.owing and one.classed is DifferenceClass.LOOSENED
    ]
    if owing and reviewed.answers:
        lines += ["", f"To accept, add to `{shown_path(reviewed.answers, root)}`:", ""]
        lines += ["```yaml", *(answer_line(one, reviewed.seals[one.identity]) for one in owing), "```"]
    idle = list(_idle_lines(comparison, edits, root))
    if idle:
        lines += ["", "### Edits without effect", "", *(f"- `{line.strip()}`" for line in idle[1:])]
    return "\n".join(lines)


def _markdown_row(row: Row, reviewed: Reviewed, edits: Mapping[int, InputEdit], root: str) -> str:
    causes = "<br>".join(_cell(line) for line in _cause_lines(row.first, edits, root))
    given = dict.fromkeys(
        f"{one.by}, {one.date}{_for(one)}: {one.reason}"
        for each in row.differences
        for one in reviewed.accepted.get(each.identity, ())
    ) or dict.fromkeys(f"looked at: {one.by}, {one.date}{_for(one)}" for one in looked_at(row, reviewed))
    cells = (_title(row), _change(row.first), row.first.why)
    return "| " + " | ".join([*map(_cell, cells), causes, _joined(given) or "—"]) + " |"


def _joined(texts: Iterable[str]) -> str:
    return "<br>".join(_cell(text) for text in texts)


def _cell(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace("|", "\\|").replace("<", "&lt;").replace("`", "\\`")
    return " ".join(escaped.split())
