"""Answer findings with the waivers that stand in the data, and find what is wrong with those.

Mistakes in the data cannot be waived: with them nothing sound can be derived. A finding about what the
machine does, or about a warning or check that is missing, can be waived only with an approver.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from difflib import get_close_matches

from procgen.diagnostics import Finding, Place, Related, Severity
from procgen.model.waiver import Waiver
from procgen.results.rule import Rule
from procgen.results.waived import Answered, Waived

RULES = (
    "waiver-expired",
    "waiver-matches-nothing",
    "waiver-not-allowed",
    "waiver-without-approver",
)
"""The rules about waivers themselves. They cannot be waived."""

_APPROVED = ("procedure", "safety-content")
"""Families whose findings need an approver, whatever their severity."""


def answer(
    findings: Sequence[Finding], waivers: Sequence[Waiver], rules: Mapping[str, Rule], today: str
) -> Answered:
    """Set aside what is waived on the day `today` (ISO 8601 text)."""
    open_ones: list[Finding] = []
    waived: list[Waived] = []
    complaints: dict[Finding, None] = {}
    used: set[int] = set()
    for finding in findings:
        mine = [index for index, waiver in enumerate(waivers) if _covers(waiver, finding)]
        used.update(mine)
        faults = {index: _fault(waivers[index], finding, rules, today) for index in mine}
        good = [index for index in mine if faults[index] is None]
        if good:
            waived.append(Waived(finding, waivers[good[0]]))
            continue
        open_ones.append(finding)
        complaints.update((fault, None) for fault in faults.values() if fault is not None)
    unused = (waiver for index, waiver in enumerate(waivers) if index not in used)
    return Answered((*open_ones, *complaints, *_matching_nothing(unused, rules)), tuple(waived))


def _covers(waiver: Waiver, finding: Finding) -> bool:
    over, place = waiver.over, finding.place
    if waiver.rule != finding.rule or over.file != place.file:
        return False
    return place.route[: len(over.route)] == over.route


def _fault(waiver: Waiver, finding: Finding, rules: Mapping[str, Rule], today: str) -> Finding | None:
    """Why a waiver that names a finding does not answer it."""
    about = Related(finding.place, f"what it would waive: {finding.message}")
    rule = rules.get(waiver.rule)
    approved_kind = rule is not None and rule.family in _APPROVED
    if finding.severity is Severity.ERROR and not approved_kind:
        return _complaint(
            "waiver-not-allowed",
            f"“{waiver.rule}” is a mistake in the data, and a mistake in the data cannot be waived",
            waiver.place.child("rule"),
            "mend what it points at, and delete the waiver",
            about,
        )
    if approved_kind and not waiver.approver:
        return _complaint(
            "waiver-without-approver",
            f"“{waiver.rule}” can hurt people: a station cannot waive it on its own",
            waiver.place.child("rule"),
            "mend it, or add “approver” with the name of who approved it",
            about,
        )
    if waiver.until < today:
        return _complaint(
            "waiver-expired",
            f"this waiver of “{waiver.rule}” held until {waiver.until}; on {today} the finding is open again",
            waiver.place.child("until"),
            "mend what it points at and delete the waiver, or have it renewed",
            about,
        )
    return None


def _matching_nothing(waivers: Iterator[Waiver], rules: Mapping[str, Rule]) -> Iterator[Finding]:
    for waiver in waivers:
        near = get_close_matches(waiver.rule, rules, n=1) if waiver.rule not in rules else []
        if waiver.rule in rules:
            message = f"nothing here is found by “{waiver.rule}”, so there is nothing to waive"
            way_out = "delete the waiver, or move it into the mapping that the finding points at"
        else:
            message = f"there is no rule “{waiver.rule}” to waive"
            way_out = f"did you mean {near[0]}?" if near else "see “procgen rules” for the names"
        yield _complaint(
            "waiver-matches-nothing",
            message,
            waiver.place.child("rule"),
            way_out,
            severity=Severity.WARNING,
        )


def _complaint(
    rule: str,
    message: str,
    place: Place,
    suggestion: str,
    *related: Related,
    severity: Severity = Severity.ERROR,
) -> Finding:
    return Finding(rule, message, place, severity, suggestion, related)
