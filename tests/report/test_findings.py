"""Findings as a terminal and a program see them."""

import json
import re

from procgen.diagnostics import NOWHERE, Finding, Place, Related, Severity, Span
from procgen.model.waiver import Waiver
from procgen.report import findings_json, findings_markdown, findings_text
from procgen.results.waived import Waived
from procgen.source import Document, read_document

HOLD = """\
hold: ONE
restraints:
  lock-1: {name: lock 1, kind: lok}
positions:
  "1": {held-by: [lock-2]}
"""
STATION = "station: S1A\nholds: [TWO]\n"


def documents() -> dict[str, Document]:
    texts = {"fleet/holds/ONE.yaml": HOLD, "S1A/station.yaml": STATION}
    return {file: read_document(file, text)[0] for file, text in texts.items()}


def findings() -> tuple[Finding, ...]:
    hold = Place("fleet/holds/ONE.yaml")
    return (
        Finding(
            "unknown-name",
            "the station works a hold “TWO” that the fleet does not have",
            Place("S1A/station.yaml", ("holds", 0)),
            suggestion="did you mean “ONE”?",
        ),
        Finding(
            "unknown-name",
            "position 1 is held by “lock-2”,\n which this hold does not have",
            hold.child("positions", "1", "held-by", 0),
            Severity.WARNING,
            suggestion="did you mean “lock-1”?",
            related=(Related(hold.child("restraints", "lock-1").key(), "lock-1 is described here"),),
            subject=(("position", "1"), ("item", "lock-2"), ("item", "lock-1")),
        ),
        Finding("unknown-word", "“lok” is no kind of restraint", hold.child("restraints", "lock-1", "kind")),
    )


def test_text_groups_by_file_sorts_by_line_and_counts() -> None:
    assert findings_text(findings(), documents(), root="stations") == (
        "stations/fleet/holds/ONE.yaml:3:32: error: “lok” is no kind of restraint [unknown-word]\n"
        "    3 |   lock-1: {name: lock 1, kind: lok}\n"
        "      |                                ^^^\n"
        "stations/fleet/holds/ONE.yaml:5:19: warning: "
        "position 1 is held by “lock-2”, which this hold does not have [unknown-name]\n"
        '    5 |   "1": {held-by: [lock-2]}\n'
        "      |                   ^^^^^^\n"
        "      help: did you mean “lock-1”?\n"
        "stations/fleet/holds/ONE.yaml:3:3: note: lock-1 is described here\n"
        "stations/S1A/station.yaml:2:9: error: "
        "the station works a hold “TWO” that the fleet does not have [unknown-name]\n"
        "    2 | holds: [TWO]\n"
        "      |         ^^^\n"
        "      help: did you mean “ONE”?\n"
        "2 errors and 1 warning in 2 files."
    )


def test_text_without_findings() -> None:
    assert findings_text((), documents()) == "No findings."


def test_finding_in_a_file_that_was_not_read_keeps_its_own_span_or_none() -> None:
    spanned = Finding("yaml-syntax", "broken", Place("x.yaml", span=Span(3, 4, 3, 5)))
    bare = Finding("missing", "not there", Place("y.yaml", ("a",)), Severity.ADVICE)
    nowhere = Finding("left-open", "the panel is left open", NOWHERE)
    assert findings_text((nowhere, bare, spanned), {}) == (
        "x.yaml:3:4: error: broken [yaml-syntax]\n"
        "y.yaml: advice: not there [missing]\n"
        "error: the panel is left open [left-open]\n"
        "2 errors and 1 piece of advice in 2 files."
    )


def test_three_severities_are_counted_in_words() -> None:
    grave = [Finding("r", "m", NOWHERE, severity) for severity in (*Severity, Severity.ADVICE)]
    assert findings_text(grave, {}).endswith("1 error, 1 warning and 2 pieces of advice.")


def test_colour_changes_nothing_but_escapes() -> None:
    plain = findings_text(findings(), documents())
    coloured = findings_text(findings(), documents(), colour=True)
    assert "\x1b[1;31merror:\x1b[0m" in coloured
    assert re.sub(r"\x1b\[[0-9;]*m", "", coloured) == plain


def test_order_of_findings_given_does_not_matter() -> None:
    assert findings_text(findings()[::-1], documents()) == findings_text(findings(), documents())


def test_causes_in_the_fleet_come_before_what_follows_in_a_station() -> None:
    station, position, kind = findings()
    backwards = dict(reversed(documents().items()))
    lines = findings_text((station, position, kind), backwards).split("\n")
    assert [line.split(":")[0] for line in lines if line.split(":")[0] in backwards] == [
        "fleet/holds/ONE.yaml",
        "fleet/holds/ONE.yaml",
        "fleet/holds/ONE.yaml",
        "S1A/station.yaml",
    ]


def test_json_names_place_text_related_and_subject() -> None:
    data = json.loads(findings_json(findings(), documents(), root="stations/"))
    assert data["summary"] == {"findings": 3, "errors": 2, "warnings": 1, "advice": 0, "files": 2}
    assert [row["line"] for row in data["findings"]] == [3, 5, 2]
    assert data["findings"][1] == {
        "rule": "unknown-name",
        "severity": "warning",
        "message": "position 1 is held by “lock-2”,\n which this hold does not have",
        "file": "stations/fleet/holds/ONE.yaml",
        "line": 5,
        "column": 19,
        "end_line": 5,
        "end_column": 25,
        "text": '  "1": {held-by: [lock-2]}',
        "suggestion": "did you mean “lock-1”?",
        "related": [
            {
                "message": "lock-1 is described here",
                "file": "stations/fleet/holds/ONE.yaml",
                "line": 3,
                "column": 3,
                "end_line": 3,
                "end_column": 9,
                "text": "  lock-1: {name: lock 1, kind: lok}",
            }
        ],
        "subject": {"position": "1", "item": "lock-2, lock-1"},
    }


def test_json_of_a_place_that_is_not_known_has_nulls() -> None:
    (row,) = json.loads(findings_json([Finding("r", "m", NOWHERE)], {}))["findings"]
    assert (row["file"], row["line"], row["column"], row["text"]) == ("", None, None, "")


def test_a_syntax_error_points_where_the_broken_thing_begins() -> None:
    document, found = read_document("a.yaml", "a: [1\nb: 2\n")
    text = findings_text(found, {"a.yaml": document})
    assert text.startswith("a.yaml:1:4: error: the bracket")
    assert "    1 | a: [1\n      |    ^\n" in text
    assert "a.yaml:2:2: note:" in text


def test_the_table_has_a_row_for_each_finding() -> None:
    lines = findings_markdown(findings(), documents(), root="stations").split("\n")
    assert lines[:2] == ["| | where | what | way out |", "|---|---|---|---|"]
    assert lines[2] == (
        "| error | `stations/fleet/holds/ONE.yaml:3:32` |"
        " “lok” is no kind of restraint \\[unknown-word\\] |  |"
    )
    assert lines[3].endswith("which this hold does not have \\[unknown-name\\] | did you mean “lock-1”? |")
    assert len(lines) == 2 + 3 + 3
    assert lines[-2:] == ["2 errors and 1 warning in 2 files.", ""]


def test_a_cell_of_the_table_cannot_break_it() -> None:
    odd = Finding("r", "a | b\n<img src=x> & *c*", NOWHERE, suggestion="`x|y`")
    (row,) = [line for line in findings_markdown([odd], {}).split("\n") if line.startswith("| error")]
    assert row == r"| error |  | a \| b &lt;img src=x> &amp; \*c\* \[r\] | `x\|y` |"


def test_the_table_lists_what_is_waived() -> None:
    (_, one, _) = findings()
    waiver = Waiver(one.rule, "known, mended by June", "B. Lund", "2026-12-31", one.place)
    text = findings_markdown([], documents(), waived=[Waived(one, waiver)])
    assert "| waived | `fleet/holds/ONE.yaml:5:19` |" in text
    assert "known, mended by June" in text
    assert text.endswith("\nNo findings.\n")
    assert findings_markdown([], {}) == "No findings.\n"
