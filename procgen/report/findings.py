"""Findings as text for people, as JSON for programs and as a table for a review."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Sequence

from procgen.diagnostics import Finding, Place, Severity, Span
from procgen.model.waiver import Waiver
from procgen.report.excerpt import excerpt
from procgen.report.json_text import json_text
from procgen.report.places import Documents, place_data, shown_place, span_of
from procgen.results.waived import Waived

_COLOURS = {Severity.ERROR: "31", Severity.WARNING: "33", Severity.ADVICE: "36"}
_COUNTED = {
    Severity.ERROR: ("error", "errors"),
    Severity.WARNING: ("warning", "warnings"),
    Severity.ADVICE: ("piece of advice", "pieces of advice"),
}
_SUMMARY_KEYS = {Severity.ERROR: "errors", Severity.WARNING: "warnings", Severity.ADVICE: "advice"}


def findings_text(
    findings: Sequence[Finding],
    documents: Documents,
    *,
    root: str = "",
    colour: bool = False,
    waived: Sequence[Waived] = (),
) -> str:
    """Findings as `path:line:column: severity: message [rule]`, each with its source line and a caret.

    Grouped by file, the fleet's first, then in the order of `documents` (files that are not there follow by
    name, then findings that no file says), sorted by line. `root` is the folder to show before each file.
    What is waived follows, a line each; the last line counts the findings.
    """
    printer = _Printer(documents, root, colour)
    blocks = [printer.block(finding) for finding in in_order(findings, documents)]
    return "\n".join([*blocks, *map(printer.waived, waived), count_line(findings)])


def findings_json(
    findings: Sequence[Finding],
    documents: Documents,
    *,
    root: str = "",
    waived: Sequence[Waived] = (),
) -> str:
    """Findings as one JSON object, in the same order as the text.

    Each has `rule`, `severity`, `message`, its place (`file`, `line`, `column`, `end_line`, `end_column`,
    `text`: see `places.place_data`), `suggestion`, `related` (places with a `message`) and `subject`.
    `summary` counts them by severity. `waived` are findings of the same form, each with its `waiver`.
    """
    ordered = in_order(findings, documents)
    counts = Counter(finding.severity for finding in ordered)
    summary: dict[str, int] = {"findings": len(ordered)}
    summary |= {key: counts[severity] for severity, key in _SUMMARY_KEYS.items()}
    summary["files"] = _files(ordered)
    rows = [_row(finding, documents, root) for finding in ordered]
    set_aside = [
        {**_row(one.finding, documents, root), "waiver": _waiver(one.waiver, documents, root)}
        for one in waived
    ]
    return json_text({"findings": rows, "waived": set_aside, "summary": summary})


def findings_markdown(
    findings: Sequence[Finding],
    documents: Documents,
    *,
    root: str = "",
    waived: Sequence[Waived] = (),
) -> str:
    """Findings as a short Markdown table to put under a change, in the order of the text: one row each.

    What is waived follows as rows of its own; the last line counts the findings.
    """
    rows = [
        (str(one.severity), one.rule, one.place, one.message, one.suggestion)
        for one in in_order(findings, documents)
    ]
    rows += [
        ("waived", one.finding.rule, one.finding.place, one.finding.message, one.waiver.reason)
        for one in waived
    ]
    if not rows:
        return f"{count_line(findings)}\n"
    lines = ["| | where | what | way out |", "|---|---|---|---|"]
    for severity, rule, place, message, way_out in rows:
        where = shown_place(place, documents, root)
        code = f"`{where.replace('`', '')}`" if where else ""
        cells = (severity, code, f"{message} [{rule}]", way_out)
        lines.append(f"| {' | '.join(map(_cell, cells))} |")
    return "\n".join([*lines, "", count_line(findings), ""])


def _cell(text: str) -> str:
    """Text that stays in its cell and is no markup: on one line, with what Markdown and HTML read escaped."""
    line = _one_line(text).replace("&", "&amp;").replace("<", "&lt;")
    return re.sub(r"([|\\*_\[\]])", r"\\\1", line) if not line.startswith("`") else line.replace("|", "\\|")


def in_order(findings: Iterable[Finding], documents: Documents) -> list[Finding]:
    """Findings by file, line and column; those at one place keep the order they were found in.

    The fleet's files come first: what is wrong in a station's files often follows from them.
    """
    rank = {file: index for index, file in enumerate(documents)}

    def key(finding: Finding) -> tuple[bool, int, str, int, int]:
        file = finding.place.file
        span = span_of(finding.place, documents) or Span(0, 0, 0, 0)
        later = not file.startswith("fleet/")
        return (later, rank.get(file, len(rank) + (file == "")), file, span.line, span.column)

    return sorted(findings, key=key)


def count_line(findings: Sequence[Finding]) -> str:
    """`2 errors and 1 warning in 2 files.`, or `No findings.`."""
    counts = Counter(finding.severity for finding in findings)
    parts = [
        f"{counts[severity]} {one if counts[severity] == 1 else many}"
        for severity, (one, many) in _COUNTED.items()
        if counts[severity]
    ]
    if not parts:
        return "No findings."
    listed = f"{', '.join(parts[:-1])} and {parts[-1]}" if len(parts) > 1 else parts[0]
    files = _files(findings)
    return f"{listed} in {files} {'file' if files == 1 else 'files'}." if files else f"{listed}."


def _files(findings: Sequence[Finding]) -> int:
    return len({finding.place.file for finding in findings} - {""})


class _Printer:
    """Turns one finding into its lines."""

    def __init__(self, documents: Documents, root: str, colour: bool) -> None:
        self.documents = documents
        self.root = root
        self.colour = colour

    def block(self, finding: Finding) -> str:
        """The lines of one finding: what, where, the source line, the way out, the places it speaks of."""
        severity = self._paint(f"{finding.severity}:", f"1;{_COLOURS[finding.severity]}")
        rule = f" [{finding.rule}]"
        lines = [self._placed(finding.place, f"{severity} {_one_line(finding.message)}{rule}")]
        lines += self._excerpt(finding.place)
        if finding.suggestion:
            lines.append(f"      {self._paint('help:', '1;32')} {_one_line(finding.suggestion)}")
        for related in finding.related:
            note = self._paint("note:", "1")
            lines.append(self._placed(related.place, f"{note} {_one_line(related.message)}"))
        return "\n".join(lines)

    def waived(self, one: Waived) -> str:
        """One line for a finding that is waived: the finding, who waived it, why and until when."""
        finding, waiver = one.finding, one.waiver
        approved = f", approved by {waiver.approver}" if waiver.approver else ""
        who = f"by {waiver.by} until {waiver.until}{approved}: {_one_line(waiver.reason)}"
        said = f"waived: {_one_line(finding.message)} [{finding.rule}] ({who})"
        return self._placed(finding.place, said)

    def _placed(self, place: Place, text: str) -> str:
        where = shown_place(place, self.documents, self.root)
        return f"{self._paint(f'{where}:', '1')} {text}" if where else text

    def _excerpt(self, place: Place) -> list[str]:
        document = self.documents.get(place.file)
        if document is None or document.text == "":
            return []
        span = document.span(place)
        drawn = excerpt(document.text, span)
        indent = len(drawn.carets) - len(drawn.carets.lstrip(" "))
        carets = " " * indent + self._paint(drawn.carets[indent:], "1;32")
        return [f"{span.line:5} | {drawn.line}", f"      | {carets}"]

    def _paint(self, text: str, code: str) -> str:
        return f"\x1b[{code}m{text}\x1b[0m" if self.colour else text


def _one_line(text: str) -> str:
    return " ".join(text.split())


def _row(finding: Finding, documents: Documents, root: str) -> dict[str, object]:
    return {
        "rule": finding.rule,
        "severity": str(finding.severity),
        "message": finding.message,
        **place_data(finding.place, documents, root),
        "suggestion": finding.suggestion,
        "related": [
            {"message": related.message, **place_data(related.place, documents, root)}
            for related in finding.related
        ],
        "subject": _subject(finding.subject),
    }


def _waiver(waiver: Waiver, documents: Documents, root: str) -> dict[str, object]:
    return {
        "rule": waiver.rule,
        "reason": waiver.reason,
        "by": waiver.by,
        "until": waiver.until,
        "approver": waiver.approver or None,
        **place_data(waiver.place, documents, root),
    }


def _subject(subject: tuple[tuple[str, str], ...]) -> dict[str, str]:
    """The names a finding is about, by kind; several of one kind stand with commas between them."""
    result: dict[str, str] = {}
    for kind, name in subject:
        result[kind] = f"{result[kind]}, {name}" if kind in result else name
    return result
