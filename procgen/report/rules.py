"""What a rule says of itself: for `procgen explain`, for `procgen rules`, and as a page of the docs."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Mapping

from procgen.report.json_text import json_text
from procgen.results.rule import Edit, Rule

_WIDTH = 88


def rule_text(rule: Rule) -> str:
    """The whole page of one rule: what it looks for, why, how to mend it, and its two examples."""
    lines = [f"{rule.name} ({rule.severity})", f"family: {rule.family}", "", *_wrapped(rule.summary)]
    for heading, text in _headed(rule):
        lines += ["", heading, *_wrapped(text, "  ")]
    lines += ["", _found(rule), *_edit(rule.failing), "", "This is in order:", *_edit(rule.passing)]
    return "\n".join(lines)


def _found(rule: Rule) -> str:
    return f"This is found on {rule.failing_on}:" if rule.failing_on else "This is found:"


def rules_text(rules: Mapping[str, Rule] | Iterable[Rule]) -> str:
    """All rules with their summaries, family by family, in the order they are given."""
    listed = _listed(rules)
    width = max((len(rule.name) for rule in listed), default=0)
    blocks = []
    for family, members in _by_family(listed):
        rows = (f"  {rule.name:{width}}  {rule.severity!s:7}  {_line(rule.summary)}" for rule in members)
        blocks.append("\n".join([family, *rows]))
    count = f"{len(listed)} {'rule' if len(listed) == 1 else 'rules'}. `procgen explain NAME` tells more."
    return "\n\n".join([*blocks, count])


def rules_json(rules: Mapping[str, Rule] | Iterable[Rule]) -> str:
    """All rules as one JSON object: `rules`, each with everything its page says."""
    rows = [
        {
            "name": rule.name,
            "family": rule.family,
            "severity": str(rule.severity),
            "summary": _line(rule.summary),
            "looks_for": rule.looks_for.strip(),
            "why": rule.why.strip(),
            "mend": rule.mend.strip(),
            "source": rule.source.strip(),
        }
        for rule in _listed(rules)
    ]
    return json_text({"rules": rows})


def rules_markdown(rules: Mapping[str, Rule] | Iterable[Rule]) -> str:
    """The reference page of the rules: the same text as `rule_text`, one section a rule."""
    listed = _listed(rules)
    blocks = ["# Rules of the check", f"{len(listed)} rules. Generated from the rule pages: do not edit."]
    for family, members in _by_family(listed):
        blocks.append(f"## {family[:1].upper()}{family[1:]}")
        for rule in members:
            blocks += [f"### {rule.name}", f"*{rule.severity}* — {_line(rule.summary)}"]
            blocks += [f"**{heading}.** {text}" for heading, text in _headed(rule)]
            for heading, edit in (("Found", rule.failing), ("In order", rule.passing)):
                fenced = "\n".join(["```diff", *_changes(edit), "```"])
                blocks += [f"{heading}, in `{edit.file}`:", fenced]
    return "\n\n".join(blocks) + "\n"


def _listed(rules: Mapping[str, Rule] | Iterable[Rule]) -> list[Rule]:
    return list(rules.values() if isinstance(rules, Mapping) else rules)


def _by_family(rules: list[Rule]) -> list[tuple[str, list[Rule]]]:
    """Rules by family, families and rules in the order they are given."""
    families: dict[str, list[Rule]] = {}
    for rule in rules:
        families.setdefault(rule.family, []).append(rule)
    return list(families.items())


def _headed(rule: Rule) -> list[tuple[str, str]]:
    """The parts of a rule's page that have something to say, with their headings."""
    parts = (
        ("What it looks for", rule.looks_for),
        ("Why it matters", rule.why),
        ("How to mend it", rule.mend),
        ("Source", rule.source),
    )
    return [(heading, text.strip()) for heading, text in parts if text.strip()]


def _line(text: str) -> str:
    return " ".join(text.split())


def _wrapped(text: str, indent: str = "") -> list[str]:
    """Paragraphs, each filled to the width of a terminal."""
    lines: list[str] = []
    for paragraph in text.strip().split("\n\n"):
        if lines:
            lines.append("")
        joined = " ".join(paragraph.split())
        lines += textwrap.wrap(
            joined,
            _WIDTH,
            initial_indent=indent,
            subsequent_indent=indent,
            break_long_words=False,
            break_on_hyphens=False,
        )
    return lines


def _edit(edit: Edit) -> list[str]:
    """An example: in this file, what stood there and what stands there now."""
    return [f"  {edit.file}", *(f"    {line}" for line in _changes(edit))]


def _changes(edit: Edit) -> list[str]:
    """The text taken out and the text put in, each line under its sign."""
    signed = [(sign, text) for sign, text in (("-", edit.find), ("+", edit.put)) if text]
    return [f"{sign} {line}".rstrip() for sign, text in signed for line in text.rstrip("\n").split("\n")]
