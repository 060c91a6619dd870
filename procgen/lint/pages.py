"""The rule pages: one YAML file per rule, the same text for the terminal, the site and the tests.

They are packaged data. A page that cannot be used is a broken installation, not an author's mistake, and
so raises `ProcgenError`.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import PurePosixPath

from procgen.diagnostics import ProcgenError, Severity
from procgen.results.rule import Edit, Rule
from procgen.source import read_document
from procgen.source.document import Data

FAMILIES = ("reading", "data", "procedure", "safety-content", "document-control")
"""The families of rules, in the order in which they are listed."""

_TEXTS = ("rule", "family", "severity", "summary", "looks-for", "why", "mend", "source")
_OPTIONAL = ("also", "points-at", "points-in", "failing-on")


def load_rules(files: Mapping[str, str]) -> Mapping[str, Rule]:
    """Read the packaged rule pages.

    `files` maps file names (`NAME.yaml`, with or without a folder) to their text. Returns the rules by
    name, sorted by family and name. Raises `ProcgenError` naming the page that cannot be used.
    """
    rules = [_rule(file, text) for file, text in files.items()]
    return {
        rule.name: rule for rule in sorted(rules, key=lambda rule: (FAMILIES.index(rule.family), rule.name))
    }


def _rule(file: str, text: str) -> Rule:
    document, findings = read_document(file, text)
    if findings:
        raise ProcgenError(f"rule page {file}: {findings[0].message}")
    page = document.data
    if not isinstance(page, dict):
        raise ProcgenError(f"rule page {file}: not a mapping")
    unknown = sorted(set(page) - {*_TEXTS, *_OPTIONAL, "failing", "passing"})
    if unknown:
        raise ProcgenError(f"rule page {file}: unknown key {unknown[0]}")
    texts = {key: _text(file, page, key) for key in _TEXTS}
    if texts["rule"] != PurePosixPath(file).stem:
        raise ProcgenError(f"rule page {file}: says it is {texts['rule']}")
    if texts["family"] not in FAMILIES:
        raise ProcgenError(f"rule page {file}: unknown family {texts['family']}")
    if texts["severity"] not in tuple(Severity):
        raise ProcgenError(f"rule page {file}: unknown severity {texts['severity']}")
    return Rule(
        name=texts["rule"],
        family=texts["family"],
        severity=Severity(texts["severity"]),
        summary=texts["summary"],
        looks_for=texts["looks-for"],
        why=texts["why"],
        mend=texts["mend"],
        source=texts["source"],
        failing=_edit(file, page, "failing"),
        passing=_edit(file, page, "passing"),
        also=_names(file, page, "also"),
        points_at=_text(file, page, "points-at") if "points-at" in page else "",
        failing_on=_text(file, page, "failing-on") if "failing-on" in page else "",
        points_in=_text(file, page, "points-in") if "points-in" in page else "",
    )


def _text(file: str, page: Mapping[str, Data], key: str) -> str:
    value = page.get(key)
    if not isinstance(value, str) or not value.strip():
        raise ProcgenError(f"rule page {file}: “{key}” must be text")
    return value.strip()


def _names(file: str, page: Mapping[str, Data], key: str) -> tuple[str, ...]:
    value = page.get(key, [])
    if not isinstance(value, list):
        raise ProcgenError(f"rule page {file}: “{key}” must be a list of rule names")
    return tuple(str(name) for name in value)


def _edit(file: str, page: Mapping[str, Data], key: str) -> Edit:
    """The edit under `key`; its texts are kept to the letter. An empty `find` writes a file of its own."""
    value = page.get(key)
    if not isinstance(value, dict) or set(value) != {"file", "find", "put"}:
        raise ProcgenError(f"rule page {file}: “{key}” must say file, find and put")
    path, find, put = value["file"], value["find"], value["put"]
    if not (isinstance(path, str) and isinstance(find, str) and isinstance(put, str) and path):
        raise ProcgenError(f"rule page {file}: file, find and put of “{key}” must be text")
    return Edit(path, find, put)
