"""Findings in SARIF 2.1.0 (OASIS): members, lines and columns, rules, waivers."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit

import pytest
from jsonschema import Draft4Validator

from procgen.cli.main import main
from procgen.diagnostics import NOWHERE, Finding, Place, Related, Severity
from procgen.disk import packaged
from procgen.lint import load_rules
from procgen.model.waiver import Waiver
from procgen.report import findings_sarif
from procgen.results.waived import Waived
from procgen.source import Document, read_document
from tests.report.sarif_shape import SHAPE
from tests.support import STATIONS

RULES = load_rules(packaged.rule_pages())
FILE = "S1A/Überladung 1.yaml"
TEXT = "hold: ONE\nitems:\n  first: lök\n  second: lock\n"
WRONG = Finding(
    "unknown-word",
    "“lök” is no kind of restraint",
    Place(FILE, ("items", "first")),
    suggestion="write “lock”",
    related=(Related(Place(FILE, ("items", "second")), "as here"), Related(NOWHERE, "as in no file")),
    subject=(("item", "first"), ("item", "second")),
)


def documents() -> dict[str, Document]:
    return {FILE: read_document(FILE, TEXT)[0]}


def read(text: str) -> dict[str, Any]:
    """The only run of a log, after every check that needs no knowledge of what was found."""
    log = json.loads(text)
    Draft4Validator.check_schema(SHAPE)
    wrong = [error.message for error in Draft4Validator(SHAPE).iter_errors(log)]
    assert wrong == []
    (run,) = log["runs"]
    rules = run["tool"]["driver"]["rules"]
    assert len({rule["id"] for rule in rules}) == len(rules)
    for result in run["results"]:
        assert rules[result["ruleIndex"]]["id"] == result["ruleId"], "3.27.6: the index is that of the rule"
        for location in (*result.get("locations", ()), *result.get("relatedLocations", ())):
            region = location.get("physicalLocation", {}).get("region")
            if region:
                start, end = (
                    (region["startLine"], region["startColumn"]),
                    (region["endLine"], region["endColumn"]),
                )
                assert start <= end, "3.30: a region does not end before it begins"
        ids = [location["id"] for location in result.get("relatedLocations", ())]
        assert len(set(ids)) == len(ids), "3.28.2: an id is unique within the result"
    return dict(run)


def test_a_finding_has_rule_level_message_and_place() -> None:
    """OASIS SARIF 2.1.0, 3.30: lines and columns from 1, the end column exclusive."""
    run = read(findings_sarif([WRONG], documents(), RULES, root="stations"))
    (result,) = run["results"]
    assert (result["ruleId"], result["level"]) == ("unknown-word", "error")
    assert result["message"]["text"] == "“lök” is no kind of restraint. write “lock”"
    where = result["locations"][0]["physicalLocation"]
    assert unquote(where["artifactLocation"]["uri"]) == f"stations/{FILE}"
    assert where["artifactLocation"]["uri"].isascii()
    assert where["region"] == {"startLine": 3, "startColumn": 10, "endLine": 3, "endColumn": 13}
    assert TEXT.split("\n")[2][10 - 1 : 13 - 1] == "lök"
    assert [one["message"]["text"] for one in result["relatedLocations"]] == ["as here", "as in no file"]
    assert result["properties"] == {"subject": [["item", "first"], ["item", "second"]]}
    assert run["columnKind"] == "unicodeCodePoints"
    assert run["invocations"] == [{"executionSuccessful": True, "exitCode": 1}]


def test_every_severity_has_a_level_and_every_rule_its_help() -> None:
    found = [replace(WRONG, severity=severity) for severity in Severity]
    run = read(findings_sarif(found, documents(), RULES))
    assert [result["level"] for result in run["results"]] == ["error", "warning", "note"]
    (rule,) = run["tool"]["driver"]["rules"]
    page = RULES["unknown-word"]
    assert rule["shortDescription"]["text"] == " ".join(page.summary.split())
    assert rule["help"]["text"] == " ".join(page.mend.split())
    assert rule["defaultConfiguration"]["level"] == "error"
    every = [Finding(name, "m", NOWHERE) for name in RULES]
    assert len(read(findings_sarif(every, {}, RULES))["tool"]["driver"]["rules"]) == len(RULES)


def test_what_is_waived_is_there_and_says_who_waived_it() -> None:
    waiver = Waiver(
        "unknown-word", "new word", "B. Lund", "2026-12-31", Place(FILE), "C. Roy", Place(FILE, ("hold",))
    )
    run = read(findings_sarif([], documents(), RULES, waived=[Waived(WRONG, waiver)]))
    (result,) = run["results"]
    (suppression,) = result["suppressions"]
    assert (suppression["kind"], suppression["status"]) == ("inSource", "accepted")
    assert suppression["justification"] == "new word (B. Lund until 2026-12-31, approved by C. Roy)"
    assert suppression["location"]["physicalLocation"]["region"]["startLine"] == 1
    assert run["invocations"][0]["exitCode"] == 0


def test_a_fingerprint_holds_while_lines_move_and_words_change() -> None:
    def printed(finding: Finding, text: str) -> str:
        run = read(findings_sarif([finding], {FILE: read_document(FILE, text)[0]}, RULES))
        return str(run["results"][0]["partialFingerprints"]["ruleAndRoute/v1"])

    first = printed(WRONG, TEXT)
    assert printed(replace(WRONG, message="said otherwise"), "# a comment\n\n" + TEXT) == first
    assert printed(replace(WRONG, place=Place(FILE, ("items", "second"))), TEXT) != first
    assert printed(replace(WRONG, rule="unknown-name"), TEXT) != first


def test_places_that_no_file_says_and_absolute_paths() -> None:
    run = read(findings_sarif([Finding("no-such-rule", "m", NOWHERE)], {}, RULES))
    assert "locations" not in run["results"][0]
    assert run["tool"]["driver"]["rules"] == [{"id": "no-such-rule"}]
    run = read(findings_sarif([WRONG], documents(), RULES, root="/srv/holds"))
    uri = run["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"]["uri"]
    assert urlsplit(uri).scheme == "file"
    assert unquote(urlsplit(uri).path) == f"/srv/holds/{FILE}"


def test_the_shape_refuses_what_the_standard_refuses() -> None:
    log = json.loads(findings_sarif([WRONG], documents(), RULES))
    check = Draft4Validator(SHAPE).is_valid
    assert check(log)
    del log["runs"][0]["results"][0]["message"]
    assert not check(log)
    log["runs"][0]["results"][0]["message"] = {"text": "m"}
    log["runs"][0]["results"][0]["locations"][0]["physicalLocation"]["region"]["startColumn"] = 0
    assert not check(log)


def test_the_command_prints_the_same_findings_in_every_format(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    stations = tmp_path / "S"
    (stations / "fleet").mkdir(parents=True)
    text = (STATIONS / "fleet" / "fleet.yaml").read_text("utf-8")
    (stations / "fleet" / "fleet.yaml").write_text(f"{text}nonsense: 3\n", "utf-8")
    printed = {}
    for form in ("json", "sarif"):
        assert main(["check", str(stations), "--format", form]) == 1
        printed[form] = capsys.readouterr().out
    rows = json.loads(printed["json"])["findings"]
    results = read(printed["sarif"])["results"]
    assert len(rows) == len(results) > 0
    for row, result in zip(rows, results, strict=True):
        assert result["ruleId"] == row["rule"]
        assert result["message"]["text"].startswith(" ".join(row["message"].split()).rstrip("."))
        region = result["locations"][0]["physicalLocation"].get("region", {})
        assert (region.get("startLine"), region.get("startColumn"), region.get("endColumn")) == (
            row["line"],
            row["column"],
            row["end_column"],
        )
