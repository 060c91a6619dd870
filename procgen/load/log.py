"""What goes wrong while one file is loaded."""

from __future__ import annotations

from collections.abc import Iterable

from procgen.diagnostics import Finding, Place, Related, Severity
from procgen.source import Document


class Log:
    """Collects the findings of one file and remembers whether its record can still be built.

    A reader that meets something it cannot use says so (or knows that the schema check has said so),
    puts a placeholder in its stead and goes on; `broken` then keeps the record from being used.
    """

    def __init__(self, document: Document) -> None:
        self.document = document
        self.findings: list[Finding] = []
        self.broken = False

    def wrong(self, rule: str, message: str, place: Place, suggestion: str, *related: Related) -> None:
        """Note a mistake that keeps the record from being built."""
        self.broken = True
        self.findings.append(Finding(rule, message, place, Severity.ERROR, suggestion, tuple(related)))

    def doubt(self, rule: str, message: str, place: Place, suggestion: str, *related: Related) -> None:
        """Note something that must be answered before a release; the record can be built."""
        self.findings.append(Finding(rule, message, place, Severity.WARNING, suggestion, tuple(related)))

    def in_order(self) -> tuple[Finding, ...]:
        """The findings in the order of the text, each once."""
        return _in_order(self.document, self.findings)


def _in_order(document: Document, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    def key(finding: Finding) -> tuple[int, int, str, str]:
        span = document.span(finding.place)
        return (span.line, span.column, finding.rule, finding.message)

    return tuple(sorted(dict.fromkeys(findings), key=key))
