"""Waivers: findings that are answered for a while, in the author's own syntax."""

from __future__ import annotations

import json

import pytest

from procgen.pipeline.checking import Checked, check
from procgen.report import findings_json, findings_text
from tests.support import load_texts
from tests.whole_check import edited, example_files

HOLD = "fleet/holds/ONE.yaml"
UNUSED = '  LM: {title: Finch 90 loading manual (invented), issue: "1", date: "2026-05-01"}\n'
WAIVER = '{rule: source-unused, reason: Soon., by: A. Person (invented), until: "2026-06-30"}'


def _checked(file: str, find: str, put: str, today: str = "2026-06-01") -> Checked:
    return check(load_texts(dict(edited(example_files(), file, find, put))), today=today)


def _rules(checked: Checked) -> list[str]:
    return [finding.rule for finding in checked.findings]


@pytest.mark.parametrize(
    ("where", "before"),
    [("the mapping it points at", "sources:\n"), ("the whole file", "hold: ONE\n")],
)
def test_a_waiver_answers_what_is_found_in_its_mapping(where: str, before: str) -> None:
    waive = f"waive: [{WAIVER}]\n" if before.startswith("hold") else f"  waive: [{WAIVER}]\n"
    text = edited(example_files(), HOLD, "sources:\n", f"sources:\n{UNUSED}")[HOLD]
    text = text.replace(before, f"{before}{waive}", 1)
    checked = check(load_texts({**example_files(), HOLD: text}), today="2026-06-30")
    assert _rules(checked) == [], where
    assert [(one.finding.rule, one.waiver.by) for one in checked.waived] == [
        ("source-unused", "A. Person (invented)")
    ]


def test_it_answers_nothing_in_another_file() -> None:
    checked = _checked("fleet/holds/TWO.yaml", "hold: TWO\n", f"hold: TWO\nwaive: [{WAIVER}]\n")
    assert _rules(checked) == ["waiver-matches-nothing"]
    assert checked.waived == ()


def test_the_day_after_its_last_day_the_finding_is_open_again() -> None:
    put = f"sources:\n{UNUSED}  waive: [{WAIVER.replace('06-30', '06-10')}]\n"
    assert _rules(_checked(HOLD, "sources:\n", put, "2026-06-10")) == []
    assert _rules(_checked(HOLD, "sources:\n", put, "2026-06-11")) == ["source-unused", "waiver-expired"]


def test_a_misspelt_rule_is_pointed_at_with_the_nearest() -> None:
    put = f"sources:\n{UNUSED}  waive: [{WAIVER.replace('unused', 'unsued')}]\n"
    checked = _checked(HOLD, "sources:\n", put)
    assert _rules(checked) == ["source-unused", "waiver-matches-nothing"]
    assert checked.findings[1].suggestion == "did you mean source-unused?"


@pytest.mark.parametrize(
    ("entry", "rule"),
    [
        (WAIVER.replace("by: A. Person (invented), ", ""), "missing-key"),
        (WAIVER.replace("2026-06-30", "2026-06-31"), "bad-date"),
        (WAIVER.replace("reason: Soon.", 'reason: ""'), "missing-value"),
        (WAIVER.replace("by:", "who:"), "unknown-key"),
        ("source-unused", "wrong-type"),
    ],
)
def test_a_waiver_that_is_badly_written_answers_nothing(entry: str, rule: str) -> None:
    checked = _checked(HOLD, "sources:\n", f"sources:\n{UNUSED}  waive: [{entry}]\n")
    assert rule in _rules(checked)
    assert "source-unused" in _rules(checked)
    assert checked.waived == ()
    (mine,) = [finding for finding in checked.findings if finding.rule == rule]
    line = checked.documents[HOLD].span(mine.place).line
    assert "waive" in checked.documents[HOLD].text.splitlines()[line - 1]


def test_what_is_waived_is_shown_in_text_and_in_json() -> None:
    checked = _checked(HOLD, "sources:\n", f"sources:\n{UNUSED}  waive: [{WAIVER}]\n")
    text = findings_text(checked.findings, checked.documents, waived=checked.waived)
    assert "waived: " in text
    assert "by A. Person (invented) until 2026-06-30: Soon." in text
    told = json.loads(findings_json(checked.findings, checked.documents, waived=checked.waived))
    assert told["findings"] == []
    assert told["waived"][0]["rule"] == "source-unused"
    assert told["waived"][0]["waiver"]["until"] == "2026-06-30"


def test_a_waived_error_with_an_approver_does_not_forbid_publication() -> None:
    find = "  - warning: wind-catches-door\n  - open: cargo-door\n"
    waiver = WAIVER.replace("source-unused", "warning-missing").replace(
        "}", ", approver: B. Person (invented)}"
    )
    file = "S1A/procedures/load-all.yaml"
    assert not _checked(file, find, "  - open: cargo-door\n").publishable
    checked = _checked(file, find, f"  - open: cargo-door\n    waive: [{waiver}]\n")
    assert checked.publishable
    assert [one.waiver.approver for one in checked.waived] == ["B. Person (invented)"]
