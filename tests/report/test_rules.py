"""A rule's page and the list of rules in the terminal."""

import json

from procgen.diagnostics import Severity
from procgen.report import rule_text, rules_json, rules_markdown, rules_text
from procgen.results.rule import Edit, Rule


def rule(name: str, family: str, severity: Severity = Severity.ERROR) -> Rule:
    return Rule(
        name=name,
        family=family,
        severity=severity,
        summary="A power switch is left on.",
        looks_for="A control of the power switch that does not stand in `off`\nwhen it ends.\n\nOnly then.",
        why="Rollers may start under somebody's feet. " * 4,
        mend="Set the switch to off.",
        source="",
        failing=Edit("fleet/holds/ONE.yaml", "set: {power: off}", "note: |\n  nothing\n"),
        passing=Edit("fleet/holds/ONE.yaml", "a", "b"),
    )


def test_page_of_a_rule() -> None:
    assert rule_text(rule("power-left-on", "procedure")) == (
        "power-left-on (error)\n"
        "family: procedure\n"
        "\n"
        "A power switch is left on.\n"
        "\n"
        "What it looks for\n"
        "  A control of the power switch that does not stand in `off` when it ends.\n"
        "\n"
        "  Only then.\n"
        "\n"
        "Why it matters\n"
        "  Rollers may start under somebody's feet. Rollers may start under somebody's feet.\n"
        "  Rollers may start under somebody's feet. Rollers may start under somebody's feet.\n"
        "\n"
        "How to mend it\n"
        "  Set the switch to off.\n"
        "\n"
        "This is found:\n"
        "  fleet/holds/ONE.yaml\n"
        "    - set: {power: off}\n"
        "    + note: |\n"
        "    +   nothing\n"
        "\n"
        "This is in order:\n"
        "  fleet/holds/ONE.yaml\n"
        "    - a\n"
        "    + b"
    )


def test_list_of_rules_by_family() -> None:
    listed = rules_text(
        {
            "a": rule("no-unit", "data"),
            "b": rule("power-left-on", "procedure"),
            "c": rule("unused-data", "data", Severity.ADVICE),
        }
    )
    assert listed == (
        "data\n"
        "  no-unit        error    A power switch is left on.\n"
        "  unused-data    advice   A power switch is left on.\n"
        "\n"
        "procedure\n"
        "  power-left-on  error    A power switch is left on.\n"
        "\n"
        "3 rules. `procgen explain NAME` tells more."
    )


def test_list_of_one_rule() -> None:
    assert rules_text([rule("no-unit", "data")]).endswith("1 rule. `procgen explain NAME` tells more.")


def test_rules_as_json() -> None:
    (row,) = json.loads(rules_json([rule("no-unit", "data")]))["rules"]
    assert (row["name"], row["family"], row["severity"]) == ("no-unit", "data", "error")
    assert row["summary"] == "A power switch is left on."
    assert row["mend"] == "Set the switch to off."


def test_rules_as_a_page_of_the_docs() -> None:
    page = rules_markdown([rule("no-unit", "data"), rule("unused", "data", Severity.ADVICE)])
    assert page.startswith("# Rules of the check\n\n2 rules.")
    assert page.count("## Data\n") == 1
    assert "### unused\n\n*advice* — A power switch is left on.\n\n**What it looks for.** A control" in page
    assert "**Source.**" not in page
    assert (
        "Found, in `fleet/holds/ONE.yaml`:\n\n"
        "```diff\n- set: {power: off}\n+ note: |\n+   nothing\n```\n\n"
        "In order, in `fleet/holds/ONE.yaml`:\n\n```diff\n- a\n+ b\n```\n"
    ) in page
