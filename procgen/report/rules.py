"""What a rule says of itself, for `procgen explain` and `procgen rules`."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Mapping

from procgen.results.rule import Edit, Rule

_WIDTH = 88


def rule_text(rule: Rule) -> str:
    """The whole page of one rule: what it looks for, why, how to mend it, and its two examples."""
    lines = [f"{rule.name} ({rule.severity})", f"family: {rule.family}", "", *_wrapped(rule.summary)]
    for heading, text in (
        ("What it looks for", rule.looks_for),
        ("Why it matters", rule.why),
        ("How to mend it", rule.mend),
        ("Source", rule.source),
    ):
        if text.strip():
            lines += ["", heading, *_wrapped(text, "  ")]
    lines += ["", "This is found:", *_edit(rule.failing), "", "This is in order:", *_edit(rule.passing)]
    return "\n".join(lines) + "\n"


def rules_text(rules: Mapping[str, Rule] | Iterable[Rule]) -> str:
    """All rules with their summaries, family by family, in the order they are given."""
    listed = list(rules.values() if isinstance(rules, Mapping) else rules)
    families = dict.fromkeys(rule.family for rule in listed)
    width = max((len(rule.name) for rule in listed), default=0)
    blocks = []
    for family in families:
        lines = [family]
        for rule in listed:
            if rule.family == family:
                lines.append(f"  {rule.name:{width}}  {rule.severity!s:7}  {' '.join(rule.summary.split())}")
        blocks.append("\n".join(lines))
    count = f"{len(listed)} {'rule' if len(listed) == 1 else 'rules'}. `procgen explain NAME` tells more."
    return "\n\n".join([*blocks, count]) + "\n"


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
    lines = [f"  {edit.file}"]
    lines += [f"    - {line}" for line in edit.find.rstrip("\n").split("\n")]
    lines += [f"    + {line}" for line in edit.put.rstrip("\n").split("\n")]
    return lines
