"""Every check value: those of the limits, then of what we read, what we print, and what is to be seen."""

from __future__ import annotations

import json
from collections.abc import Iterator
from fractions import Fraction

from procgen.diagnostics import Finding, Place
from procgen.limits.check_values import check_values
from procgen.publish.contrast import channels, contrast
from procgen.report.sarif import findings_sarif
from procgen.results.check_value import CheckValue
from procgen.source import read_document


def every_check_value() -> tuple[CheckValue, ...]:
    """All of them, each with its source."""
    return (*check_values(), *_contrasts(), *_plain_values(), *_regions())


def _value(
    what: str, case: str, ours: Fraction, published: str, source: str, tolerance: str = "0"
) -> CheckValue:
    return CheckValue(what, case, ours, Fraction(published), Fraction(tolerance), "", source)


def _contrasts() -> Iterator[CheckValue]:
    for colour, published, passes in (("#767676", "4.542", 1), ("#777777", "4.478", 0)):
        ours = Fraction(contrast(channels(colour), channels("#ffffff")))
        source, words = "WCAG 2.2, 1.4.3", f"{colour} on white"
        yield _value("contrast", words, ours, published, source, "0.0005")
        at_least = Fraction(ours >= Fraction("4.5"))
        words = f"{words}, at least 4.5 to 1, not rounded: passes (1) or fails (0)"
        yield _value("contrast", words, at_least, f"{passes}", source)


def _plain_values() -> Iterator[CheckValue]:
    """What YAML 1.2 reads otherwise than YAML 1.1 is refused until it is put in quotes; then it is text."""
    source = "YAML 1.2.2, 10.3.2: the core schema reads it otherwise than YAML 1.1 does"
    for plain in ("NO", "010", "12:30", "1e3"):
        _, found = read_document("a.yaml", f"a: {plain}\n")
        refused = Fraction([finding.rule for finding in found] == ["ambiguous-plain-value"])
        yield _value("plain value", f"{plain}: refused (1) or read (0)", refused, "1", source)
        document, found = read_document("a.yaml", f'a: "{plain}"\n')
        text = Fraction(not found and document.data == {"a": plain})
        yield _value("plain value", f"“{plain}” in quotes: text (1) or not (0)", text, "1", source)


def _regions() -> Iterator[CheckValue]:
    """Where a word stands in a file, as other tools are told."""
    source = "OASIS SARIF 2.1.0, 3.30: lines and columns from 1, the end column exclusive"
    file = "a.yaml"
    document, _ = read_document(file, "first: 1\nsecond: lock\n")
    finding = Finding("r", "m", Place(file, ("second",)))
    log = json.loads(findings_sarif([finding], {file: document}, {}))
    region = log["runs"][0]["results"][0]["locations"][0]["physicalLocation"]["region"]
    for member, published in (("startLine", 2), ("startColumn", 9), ("endLine", 2), ("endColumn", 13)):
        words = f"“lock” in the second line, from the ninth column: {member}"
        yield _value("region of a finding", words, Fraction(region[member]), f"{published}", source)
