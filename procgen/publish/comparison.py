"""The reviewer's comparison: one HTML file with both versions side by side, complete in itself."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from markupsafe import Markup

from procgen.publish.against import against, said
from procgen.publish.causes import ShownCause, shown_causes, shown_edit
from procgen.publish.rendering import environment, source
from procgen.publish.words import DEMONSTRATION, PREVAIL
from procgen.results.aligned import AlignedStep, SideBySide
from procgen.results.difference import (
    Accepted,
    Difference,
    DifferenceClass,
    DifferenceKind,
)
from procgen.results.difference_rows import (
    Row,
    answer_line,
    by_number,
    looked_at,
    rows,
    size,
)
from procgen.results.page import PageStep

_KINDS = {
    DifferenceKind.CHANGED: "",
    DifferenceKind.ADDED: "came",
    DifferenceKind.REMOVED: "went",
    DifferenceKind.MOVED: "moved",
    DifferenceKind.RENAMED: "renamed",
}
_NEEDS = {
    DifferenceClass.LOOSENED: "needs a named acceptance",
    DifferenceClass.TIGHTENED: "needs a look, and a notice to loaders",
    DifferenceClass.CHANGED: "needs a look",
    DifferenceClass.WORDING: "needs nothing",
}


@dataclass(frozen=True, slots=True)
class ShownRow:
    """One row of the list. `was` and `now` are marked up: what is not on the other side stands out."""

    key: str
    row: Row
    kind: str
    was: Markup
    now: Markup
    size: str
    causes: tuple[ShownCause, ...]
    accepted: tuple[Accepted, ...]
    looked: tuple[Accepted, ...]
    lines: tuple[str, ...]
    owing: bool


@dataclass(frozen=True, slots=True)
class ShownClass:
    """A class with its rows."""

    classed: DifferenceClass
    count: int
    owing: int
    needs: str
    rows: tuple[ShownRow, ...]


@dataclass(frozen=True, slots=True)
class ShownStep:
    """A row of the steps side by side; `classed` is the gravest of its differences, or empty."""

    part: str
    was: Markup
    now: Markup
    was_number: int
    now_number: int
    classed: str
    notes: tuple[str, ...]
    was_view: str
    now_view: str


def comparison_page(side: SideBySide, templates: Mapping[str, str] | Path, root: str = "") -> str:
    """The whole page as HTML. `root` is the folder before the names of files."""
    texts = templates if isinstance(templates, Mapping) else _texts(templates)
    env = environment(texts)
    reviewed = side.reviewed
    comparison = reviewed.comparison
    classes = tuple(_classes(side, root))
    site = comparison.now.site
    keys = {
        one.identity: shown.key for each in classes for shown in each.rows for one in shown.row.differences
    }
    edits = by_number(comparison)
    return env.get_template("comparison.html").render(
        styles=source(env, "diagram.css") + source(env, "comparison.css"),
        script=source(env, "comparison.js"),
        comparison=comparison,
        reviewed=reviewed,
        classes=classes,
        holds=side.holds,
        steps={
            page.name: tuple(_steps(page.steps, comparison.differences))
            for hold in side.holds
            for page in hold.pages
        },
        keys=keys,
        idle=[shown_edit(edits[n].first, root) for n in comparison.idle],
        answers=f"{root.rstrip('/')}/{reviewed.answers}" if root else reviewed.answers,
        demonstration=site.station.demonstration,
        demonstration_words=DEMONSTRATION,
        prevail=PREVAIL,
        airline=site.airline,
    )


def _texts(folder: Path) -> Mapping[str, str]:
    return {
        path.name: path.read_text(encoding="utf-8") for path in sorted(folder.iterdir()) if path.is_file()
    }


def _classes(side: SideBySide, root: str) -> Iterator[ShownClass]:
    reviewed = side.reviewed
    for classed in DifferenceClass:
        found = [one for one in reviewed.comparison.differences if one.classed is classed]
        shown = tuple(_row(f"{classed}-{n}", row, side, root) for n, row in enumerate(rows(found), start=1))
        owing = sum(one.identity in reviewed.owing for one in found)
        yield ShownClass(classed, len(found), owing, _NEEDS[classed], shown)


def _row(key: str, row: Row, side: SideBySide, root: str) -> ShownRow:
    reviewed, first = side.reviewed, row.first
    was, now = _sides(first)
    owing = [one for one in row.differences if one.identity in reviewed.owing]
    given = (each for one in row.differences for each in reviewed.accepted.get(one.identity, ()))
    accept = reviewed.answers and first.classed is DifferenceClass.LOOSENED
    return ShownRow(
        key=key,
        row=row,
        kind=_KINDS[first.kind],
        was=was,
        now=now,
        size=size(first.number) if first.number else "",
        causes=shown_causes(first.causes, by_number(reviewed.comparison), root),
        accepted=tuple(dict.fromkeys(given)),
        looked=looked_at(row, reviewed),
        lines=tuple(answer_line(one, reviewed.seals[one.identity]) for one in owing) if accept else (),
        owing=bool(owing),
    )


def _sides(one: Difference) -> tuple[Markup, Markup]:
    was, now = (side.text if side else "" for side in (one.was, one.now))
    if not was or not now or one.number is not None:
        return said(was), said(now)
    return against(was, now)


def _steps(steps: tuple[AlignedStep, ...], found: tuple[Difference, ...]) -> Iterator[ShownStep]:
    by_identity = {one.identity: one for one in found}
    for step in steps:
        told = sorted(
            (by_identity[name] for name in step.identities if name in by_identity),
            key=lambda one: list(DifferenceClass).index(one.classed),
        )
        before, after = _words(step.was), _words(step.now)
        # Beside a rename the words differ though nothing else does: plain text stays plain.
        was, now = against(before, after) if told and step.was and step.now else (said(before), said(after))
        yield ShownStep(
            part=step.part,
            was=was,
            now=now,
            was_number=step.was.number if step.was else 0,
            now_number=step.now.number if step.now else 0,
            classed=str(told[0].classed) if told else "",
            notes=tuple(dict.fromkeys(f"{one.classed}: {one.why}" for one in told)),
            was_view=step.was_view,
            now_view=step.now_view,
        )


def _words(step: PageStep | None) -> str:
    """A step with its warnings' names and all that it says."""
    if step is None:
        return ""
    warned = "".join(f"{str(one.signal).upper()}: {one.title}. " for one in step.warnings)
    otherwise = f" If not: {step.if_not}" if step.if_not else ""
    done = f" {step.done_when}" if step.done_when else ""
    return f"{warned}{step.text}{done}{otherwise}"
