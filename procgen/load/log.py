"""What goes wrong while one file is loaded."""

from __future__ import annotations

from dataclasses import replace

from procgen.diagnostics import Finding, Place, Related, Route, Severity
from procgen.source import Document

_SUBJECTS = {
    "bays": "bay",
    "doors": "item",
    "panels": "item",
    "controls": "item",
    "drives": "item",
    "restraints": "item",
    "positions": "position",
    "zones": "zone",
    "cumulative": "cumulative limit",
    "units": "unit",
    "aboard": "unit",
    "steps": "step",
}


class Log:
    """Collects the findings of one file and remembers whether its record can still be built.

    A reader that meets something it cannot use says so (or knows that the schema check has said so),
    puts a placeholder in its stead and goes on; `broken` then keeps the record from being used.
    """

    def __init__(self, document: Document) -> None:
        self.document = document
        self.findings: list[Finding] = []
        self.broken = document.data is None
        self._misshapen: set[Route] = set()
        self._spoilt: set[Route] = set()

    def wrong(self, rule: str, message: str, place: Place, suggestion: str, *related: Related) -> None:
        """Note a mistake that keeps the record from being built."""
        self.broken = True
        self._spoilt.update(place.route[:end] for end in range(len(place.route) + 1))
        self.doubt(rule, message, place, suggestion, *related, severity=Severity.ERROR)

    def doubt(
        self,
        rule: str,
        message: str,
        place: Place,
        suggestion: str,
        *related: Related,
        severity: Severity = Severity.WARNING,
    ) -> None:
        """Note something that must be answered, but leaves the record fit to be built."""
        subject = _subject(place.route)
        self.findings.append(Finding(rule, message, place, severity, suggestion, related, subject))

    def shape_checked(self) -> None:
        """Note that all findings so far are about shape."""
        for finding in self.findings:
            route = finding.place.route
            self._misshapen.update((route, route[:-1]) if route else (route,))

    def misshapen(self, place: Place) -> bool:
        """Whether the value at a place, or something directly in it, has the wrong shape.

        What such a value does not say is no second mistake: its key may be the misspelt one.
        """
        return place.route in self._misshapen

    def spoilt(self, place: Place) -> bool:
        """Whether anything at a place or below keeps it from being built."""
        return place.route in self._spoilt

    def in_order(self) -> tuple[Finding, ...]:
        """The findings in the order of the text, each once."""

        def key(finding: Finding) -> tuple[int, int, str, str]:
            span = self.document.span(finding.place)
            return (span.line, span.column, finding.rule, finding.message)

        return tuple(_one_for_each_name(sorted(dict.fromkeys(self.findings), key=key)))


def _subject(route: Route) -> tuple[tuple[str, str], ...]:
    """What a place is part of, by kind."""
    if len(route) < 2 or route[0] not in _SUBJECTS:
        return ()
    name = route[1]
    return ((_SUBJECTS[str(route[0])], str(name + 1) if isinstance(name, int) else name),)


def _one_for_each_name(findings: list[Finding]) -> list[Finding]:
    """Fold the findings on one unknown name into the first: the slip is where it should have been given."""
    first: dict[str, int] = {}
    folded: list[Finding] = []
    for finding in findings:
        if finding.rule != "unknown-name":
            folded.append(finding)
        elif finding.message in first:
            index = first[finding.message]
            again = Related(finding.place, "and here")
            folded[index] = replace(folded[index], related=(*folded[index].related, again))
        else:
            first[finding.message] = len(folded)
            folded.append(finding)
    return folded
