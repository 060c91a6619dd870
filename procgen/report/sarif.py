"""Findings as a SARIF 2.1.0 log (OASIS, errata 01), for viewers and review tools that read that format."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from urllib.parse import quote

from procgen import __version__
from procgen.diagnostics import Finding, Place, Severity, Span
from procgen.report.findings import in_order
from procgen.report.json_text import json_text
from procgen.report.places import Documents, shown_path, span_of
from procgen.results.rule import Rule
from procgen.results.waived import Waived

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
_LEVELS = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.ADVICE: "note"}


def findings_sarif(
    findings: Sequence[Finding],
    documents: Documents,
    rules: Mapping[str, Rule],
    *,
    root: str = "",
    waived: Sequence[Waived] = (),
) -> str:
    """Findings as one run, in the same order as the text; what is waived follows, each with its suppression.

    Lines and columns count from 1, columns in characters; an end column is the one after the last character.
    A message ends with the way out. `rules` are the pages of the rules, those found go into the log with
    what they look for, why, and how to mend it. Fingerprints hold through moved lines and changed wording.
    """
    shown = in_order(findings, documents)
    names = sorted({one.rule for one in shown} | {one.finding.rule for one in waived})
    writer = _Writer(documents, root, {name: index for index, name in enumerate(names)})
    results = [*map(writer.result, shown), *map(writer.waived, waived)]
    driver: dict[str, object] = {
        "name": "procgen",
        "version": __version__,
        "semanticVersion": __version__,
        "language": "en",
        "rules": [_descriptor(name, rules.get(name)) for name in names],
    }
    run = {
        "tool": {"driver": driver},
        "invocations": [{"executionSuccessful": True, "exitCode": int(bool(findings))}],
        "columnKind": "unicodeCodePoints",
        "results": results,
    }
    return json_text({"$schema": SCHEMA, "version": "2.1.0", "runs": [run]})


def _descriptor(name: str, rule: Rule | None) -> dict[str, object]:
    """What a viewer shows of a rule."""
    if rule is None:
        return {"id": name}
    return {
        "id": name,
        "shortDescription": {"text": _line(rule.summary)},
        "fullDescription": {"text": f"{_line(rule.looks_for)} {_line(rule.why)}".strip()},
        "help": {"text": _line(rule.mend)},
        "defaultConfiguration": {"level": _LEVELS[rule.severity]},
        "properties": {"tags": [rule.family]},
    }


class _Writer:
    """Turns findings into results of one run; `index` says where each rule stands in it."""

    def __init__(self, documents: Documents, root: str, index: Mapping[str, int]) -> None:
        self.documents = documents
        self.root = root
        self.index = index

    def result(self, finding: Finding) -> dict[str, object]:
        """One finding, with its place, the places it speaks of and its fingerprint."""
        text = _line(finding.message)
        if finding.suggestion:
            text = f"{text.rstrip('.')}. {_line(finding.suggestion)}"
        found: dict[str, object] = {
            "ruleId": finding.rule,
            "ruleIndex": self.index[finding.rule],
            "level": _LEVELS[finding.severity],
            "message": {"text": text},
        }
        where = self._location(finding.place)
        if where:
            found["locations"] = [where]
        others = [
            {"id": number, **self._location(related.place), "message": {"text": _line(related.message)}}
            for number, related in enumerate(finding.related)
        ]
        if others:
            found["relatedLocations"] = others
        found["partialFingerprints"] = {"ruleAndRoute/v1": _fingerprint(finding)}
        if finding.subject:
            found["properties"] = {"subject": [list(pair) for pair in finding.subject]}
        return found

    def waived(self, one: Waived) -> dict[str, object]:
        """A finding that somebody answered: not to be counted, and not to be hidden."""
        waiver = one.waiver
        approved = f", approved by {waiver.approver}" if waiver.approver else ""
        suppression: dict[str, object] = {
            "kind": "inSource",
            "status": "accepted",
            "justification": f"{_line(waiver.reason)} ({waiver.by} until {waiver.until}{approved})",
        }
        where = self._location(waiver.place)
        if where:
            suppression["location"] = where
        return {**self.result(one.finding), "suppressions": [suppression]}

    def _location(self, place: Place) -> dict[str, object]:
        """A place as a location; empty where no file says it."""
        if not place.file:
            return {}
        physical: dict[str, object] = {"artifactLocation": {"uri": _uri(shown_path(place.file, self.root))}}
        span = span_of(place, self.documents)
        if span is not None:
            physical["region"] = _region(span)
        return {"physicalLocation": physical}


def _region(span: Span) -> dict[str, int]:
    return {
        "startLine": span.line,
        "startColumn": span.column,
        "endLine": span.end_line,
        "endColumn": span.end_column,
    }


def _uri(path: str) -> str:
    """A path as a URI reference: relative ones stay so, others name their scheme."""
    return f"file://{quote(path)}" if path.startswith("/") else quote(path)


def _fingerprint(finding: Finding) -> str:
    """The same for the same rule at the same route of the same file, wherever that stands in the text."""
    parts = [finding.rule, finding.place.file, *map(str, finding.place.route)]
    return hashlib.sha256("\n".join(parts).encode()).hexdigest()[:32]


def _line(text: str) -> str:
    return " ".join(text.split())
