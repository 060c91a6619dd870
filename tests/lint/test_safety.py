"""Safety content, case by case, on small procedures in the author's own syntax."""

from __future__ import annotations

import pytest

from procgen.diagnostics import Finding
from procgen.lint import check_procedure
from tests.support import load_texts
from tests.whole_check import example_files

STEPS = "S1A/procedures/load-all.yaml"

HEAD = """\
procedure: load-all
hold: ONE
operation: loading
units:
  u21: {type: AKX, bay: "21"}
  u22: {type: AKX, bay: "22"}
steps:
"""

HAZARDS = """\
hazards:
  all-through:
    title: All through
    signal: warning
    scope: procedure
    comes-with: [{verbs: [drive]}]
    hazard: A.
    consequence: B.
    avoid: Let go of the controls.
    source: invented for the test
  sectionwise:
    title: Sectionwise
    signal: caution
    scope: section
    comes-with: [{verbs: [raise, lower], kinds: [lock], reached-from: [inside]}]
    hazard: A.
    consequence: B.
    avoid: C.
    source: invented for the test
  stepwise:
    title: Stepwise
    signal: note
    scope: step
    comes-with: [{verbs: [open, close], kinds: [panel]}]
    hazard: A.
    consequence: B.
    avoid: C.
    checks:
      - {condition: looked, before: {verbs: [close], kinds: [panel]}, after: {verbs: [raise]}}
      - {condition: counted, before: {verbs: [present]}, frequency: each-unit}
    reports: [told]
    source: invented for the test
checks:
  looked: {text: Look.}
  counted: {text: Count.}
reports:
  told: {text: Tell.}
"""


def findings_of(*steps: str) -> list[Finding]:
    """The findings about a procedure with these steps, under all four section heads if it gives none."""
    listed = [*steps]
    if not any(line.startswith("section:") for line in listed):
        listed = [
            "section: before-you-start",
            "section: prepare",
            "section: move-units",
            *listed,
            "section: secure-and-close",
        ]
    text = HEAD + "".join(f"  - {step}\n" for step in listed)
    others = {file: one for file, one in example_files().items() if "/procedures/" not in file}
    loaded = load_texts({**others, STEPS: text}, HAZARDS)
    assert loaded.findings == ()
    (procedure,) = loaded.network.stations["S1A"].procedures
    return [*check_procedure(procedure, loaded.network.holds["ONE"], loaded.network.hazards)]


def told(*steps: str) -> list[tuple[str, str]]:
    """Each finding as rule and number of its step, counted without the heads put round the steps."""
    return [(finding.rule, dict(finding.subject).get("step", "")) for finding in findings_of(*steps)]


DRIVE = 'drive: {unit: u21, hold: {drive-stick: in}, through: [outside, "23"]}'
ALL_THROUGH = "warning: all-through"


@pytest.mark.parametrize(
    ("steps", "expected"),
    [
        ((ALL_THROUGH, DRIVE), []),
        (("check: path-clear", ALL_THROUGH, DRIVE), []),
        ((DRIVE,), [("warning-missing", "4"), ("no-stop-instruction", "4")]),
        ((DRIVE, ALL_THROUGH), [("warning-misplaced", "5"), ("no-stop-instruction", "4")]),
        ((ALL_THROUGH, DRIVE, ALL_THROUGH, DRIVE), [("warning-repeated", "6")]),
        (("note: Nothing moves.",), []),
    ],
)
def test_a_warning_for_the_procedure(steps: tuple[str, ...], expected: list[tuple[str, str]]) -> None:
    assert told(*steps) == expected


@pytest.mark.parametrize(
    ("steps", "expected"),
    [
        (("caution: sectionwise", "lower: lock-21", "raise: lock-21"), []),
        (("lower: lock-21", "raise: lock-21"), [("warning-missing", "4")]),
        (("lower: lock-21", "caution: sectionwise", "raise: lock-21"), [("warning-misplaced", "5")]),
        (
            ("caution: sectionwise", "lower: lock-21", "caution: sectionwise", "raise: lock-21"),
            [("warning-repeated", "6")],
        ),
        (("raise: sill-lock",), []),  # reached from outside
        (("fit: door-net",), []),  # another verb and kind
    ],
)
def test_a_caution_for_the_section(steps: tuple[str, ...], expected: list[tuple[str, str]]) -> None:
    assert told(*steps) == expected


def test_each_section_has_its_own() -> None:
    heads = (
        "section: before-you-start",
        "section: prepare",
        "section: move-units",
        "section: secure-and-close",
    )
    steps = (*heads[:2], "caution: sectionwise", "lower: lock-21", *heads[2:], "raise: lock-21")
    assert told(*steps) == [("warning-missing", "7")]


@pytest.mark.parametrize(
    ("steps", "expected"),
    [
        (("notice: stepwise", "open: control-panel"), []),
        (("notice: stepwise", "check: looked", "open: control-panel"), []),
        (("notice: stepwise", "raise: sill-lock", "open: control-panel"), [("warning-misplaced", "4")]),
        (("open: control-panel", "notice: stepwise"), [("warning-misplaced", "5")]),
        (("notice: stepwise", "notice: stepwise", "open: control-panel"), [("warning-repeated", "5")]),
        (("notice: stepwise", "open: control-panel", "close: control-panel"), []),
        (("notice: stepwise", "open: control-panel", "notice: stepwise", "close: control-panel"), []),
        (
            ("notice: stepwise", "open: control-panel", "lower: sill-lock", "close: control-panel"),
            [("warning-missing", "7")],
        ),
        (("notice: stepwise", "open: cargo-door", "open: control-panel"), [("warning-misplaced", "4")]),
    ],
)
def test_a_notice_right_before_the_step(steps: tuple[str, ...], expected: list[tuple[str, str]]) -> None:
    """With the check and the report that the hazard asks for made, so that only its warning is judged."""
    found = told("check: looked", *steps, "report: told")
    shifted = [(rule, str(int(step) + 1)) for rule, step in expected]
    assert [one for one in found if one[0].startswith("warning")] == shifted


@pytest.mark.parametrize(
    ("signal", "finds"),
    [("warning", True), ("caution", False), ("notice", True)],
)
def test_the_signal_word_is_the_hazard_s(signal: str, finds: bool) -> None:
    found = told(f"{signal}: sectionwise", "lower: lock-21")
    assert found == ([("wrong-signal-word", "4")] if finds else [])


PANEL = ("notice: stepwise", "close: control-panel", "report: told")


@pytest.mark.parametrize(
    ("steps", "expected"),
    [
        (("check: looked", *PANEL), []),
        (PANEL, [("required-check-missing", "5")]),
        ((*PANEL, "check: looked"), [("required-check-late", "7")]),
        (("raise: sill-lock", "check: looked", *PANEL), []),
        (("check: looked", "raise: sill-lock", *PANEL), [("required-check-early", "4")]),
        (("check: looked", "raise: sill-lock", "check: looked", *PANEL), []),
        (("check: looked", *PANEL, "raise: sill-lock"), []),
        (("check: looked", *PANEL[:2]), [("report-missing", "7")]),
    ],
)
def test_a_check_made_once(steps: tuple[str, ...], expected: list[tuple[str, str]]) -> None:
    assert told(*steps) == expected


def counted(unit: str) -> str:
    return f"check: {{condition: counted, unit: {unit}}}"


@pytest.mark.parametrize(
    ("steps", "expected"),
    [
        ((counted("u21"), "present: u21", counted("u22"), "present: u22"), []),
        ((counted("u21"), counted("u22"), "present: u21", "present: u22"), []),
        ((counted("u21"), "present: u21", "present: u22"), [("required-check-missing", "8")]),
        ((counted("u21"), "present: u21", counted("u21"), "present: u22"), [("check-for-wrong-unit", "8")]),
        ((counted("u21"), "present: u21", "check: counted", "present: u22"), [("check-for-wrong-unit", "8")]),
        ((counted("u21"), "present: u21", "present: u22", counted("u22")), [("required-check-late", "9")]),
        (
            (counted("u22"), "present: u21", counted("u21"), "present: u22"),
            [("check-for-wrong-unit", "6")],
        ),
    ],
)
def test_a_check_made_for_each_unit(steps: tuple[str, ...], expected: list[tuple[str, str]]) -> None:
    assert told("notice: stepwise", "open: control-panel", *steps, "report: told") == expected


HEADS = ("section: before-you-start", "section: prepare", "section: move-units", "section: secure-and-close")


@pytest.mark.parametrize(
    ("steps", "expected"),
    [
        (HEADS, []),
        (HEADS[:3], [("section-missing", "")]),
        ((HEADS[0], *HEADS[2:]), [("section-missing", "2")]),
        (("note: First.", *HEADS[1:]), [("step-before-section", "1")]),
        ((*HEADS, HEADS[3]), [("section-out-of-order", "5")]),
        ((HEADS[1], HEADS[0], *HEADS[2:]), [("section-out-of-order", "2")]),
    ],
)
def test_sections(steps: tuple[str, ...], expected: list[tuple[str, str]]) -> None:
    assert told(*steps) == expected


def test_findings_point_at_the_step_and_at_the_hazard() -> None:
    missing = findings_of("lower: lock-21")[0]
    assert missing.place.file == STEPS
    assert missing.place.route == ("steps", 3)
    assert [related.place.file for related in missing.related] == ["<hazards.yaml>"]
    assert missing.related[0].place.route[:2] == ("hazards", "sectionwise")
