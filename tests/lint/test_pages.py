"""A rule page that cannot be used is a broken installation: one line that names the page."""

from __future__ import annotations

import pytest

from procgen.diagnostics import ProcgenError
from procgen.lint import load_rules

PAGE = """\
rule: some-rule
family: data
severity: error
summary: A summary.
looks-for: This.
why: Because.
mend: So.
source: common practice, no source
failing: {file: a.yaml, find: one, put: two}
passing: {file: a.yaml, find: one, put: ""}
"""


def test_a_page_is_read_as_it_stands() -> None:
    rule = load_rules({"some-rule.yaml": PAGE + "also: [other]\npoints-at: one\npoints-in: b.yaml\n"})[
        "some-rule"
    ]
    assert (rule.family, rule.severity, rule.summary) == ("data", "error", "A summary.")
    assert (rule.failing.file, rule.failing.find, rule.failing.put) == ("a.yaml", "one", "two")
    assert rule.passing.put == ""
    assert (rule.also, rule.points_at, rule.points_in) == (("other",), "one", "b.yaml")


def test_rules_come_family_by_family() -> None:
    pages = {
        f"{name}.yaml": PAGE.replace("some-rule", name).replace("family: data", f"family: {family}")
        for name, family in (("b", "procedure"), ("a", "safety-content"), ("d", "data"), ("c", "data"))
    }
    assert list(load_rules(pages)) == ["c", "d", "b", "a"]


@pytest.mark.parametrize(
    ("find", "put", "says"),
    [
        ("rule: some-rule", "rule: other-rule", "says it is other-rule"),
        ("family: data", "family: others", "unknown family others"),
        ("severity: error", "severity: grave", "unknown severity grave"),
        ("summary: A summary.", "summary:", "“summary” must be text"),
        ("mend: So.", "mends: So.", "unknown key mends"),
        ("failing: {file: a.yaml, find: one, put: two}", "failing: {file: a.yaml}", "“failing” must say"),
        ("find: one, put: two", "find: [one], put: two", "must be text"),
        ("source: common", "also: other\nsource: common", "“also” must be a list"),
        ("rule: some-rule", "rule: some-rule\nrule: some-rule", "stands twice"),
    ],
)
def test_a_page_that_cannot_be_used_is_named(find: str, put: str, says: str) -> None:
    assert PAGE.count(find) == 1
    with pytest.raises(ProcgenError, match=r"some-rule\.yaml: ") as raised:
        load_rules({"some-rule.yaml": PAGE.replace(find, put)})
    assert says in str(raised.value)


def test_a_page_is_a_mapping() -> None:
    with pytest.raises(ProcgenError, match="not a mapping"):
        load_rules({"some-rule.yaml": "- one\n"})
