"""Every rule has a page, and the two examples of every page do what the page says."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache

import pytest

from procgen import lint, load, pipeline, release, simulate
from procgen.diagnostics import Finding
from procgen.lint.pages import load_rules
from procgen.load import Loaded
from procgen.results.rule import Rule
from tests.support import ROOT
from tests.whole_check import DAY, edited, example_files, findings_of, line_of

PAGES = ROOT / "procgen" / "data" / "rules"


@cache
def rules() -> Mapping[str, Rule]:
    return load_rules({path.name: path.read_text("utf-8") for path in sorted(PAGES.glob("*.yaml"))})


def names(stage: Iterable[object]) -> set[str]:
    """The rule names that a stage exports, as texts or as records with a name."""
    return {str(getattr(rule, "name", rule)) for rule in stage}


def test_every_rule_has_a_page_and_every_page_a_rule() -> None:
    emitted = names(load.RULES) | names(lint.RULES) | names(simulate.RULES) | names(release.RULES)
    emitted |= {name for name, _, _ in pipeline.RULES}
    assert sorted(rules()) == sorted(emitted)


def test_the_example_is_clean() -> None:
    assert findings_of(example_files())[1] == ()


@pytest.mark.parametrize("name", sorted(path.stem for path in PAGES.glob("*.yaml")))
def test_the_failing_example_is_found(name: str) -> None:
    rule = rules()[name]
    files = edited(example_files(), rule.failing.file, rule.failing.find, rule.failing.put)
    loaded, findings = findings_of(files, rule.failing_on or DAY)
    told = "\n".join(f"{finding.rule}: {finding.message}" for finding in findings)
    mine = [finding for finding in findings if finding.rule == name]
    assert mine, f"not found; instead:\n{told}"
    assert {finding.rule for finding in findings} <= {name, *rule.also}, told
    assert set(rule.also) <= {finding.rule for finding in findings}, f"also: names too much; found:\n{told}"
    assert all(finding.severity is rule.severity for finding in mine)
    lines = expected_lines(rule, files)
    pointed = [place_line(loaded, finding) for finding in mine]
    assert any(line in lines for line in pointed), f"points at {pointed}, not into {lines}"
    assert all(finding.message and finding.suggestion for finding in mine)


@pytest.mark.parametrize("name", sorted(path.stem for path in PAGES.glob("*.yaml")))
def test_the_passing_example_is_clean(name: str) -> None:
    edit = rules()[name].passing
    findings = findings_of(edited(example_files(), edit.file, edit.find, edit.put))[1]
    assert findings == (), "\n".join(f"{finding.rule}: {finding.message}" for finding in findings)


def place_line(loaded: Loaded, finding: Finding) -> tuple[str, int]:
    return finding.place.file, line_of(loaded, finding)


def expected_lines(rule: Rule, files: Mapping[str, str]) -> set[tuple[str, int]]:
    """The lines that the page says the finding points at: those of the edit, or that of `points_at`."""
    file = rule.points_in or rule.failing.file
    if file not in files or not rule.failing.find:
        return {(file, 1)}
    if rule.points_at:
        assert files[file].count(rule.points_at) == 1, f"“{rule.points_at}” does not stand once in {file}"
        end = files[file].index(rule.points_at) + len(rule.points_at)
        return {(file, line_at(files[file], end))}
    start = example_files()[file].index(rule.failing.find)
    first = line_at(files[file], start)
    last = line_at(files[file], start + len(rule.failing.put))
    return {(file, line) for line in range(first, last + 1)}


def line_at(text: str, offset: int) -> int:
    return text.count("\n", 0, offset) + 1
