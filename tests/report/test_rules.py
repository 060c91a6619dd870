"""A rule's page and the list of rules in the terminal."""

from procgen.diagnostics import Severity
from procgen.report import rule_text, rules_text
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
        "    + b\n"
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
        "3 rules. `procgen explain NAME` tells more.\n"
    )


def test_list_of_one_rule() -> None:
    assert rules_text([rule("no-unit", "data")]).endswith("1 rule. `procgen explain NAME` tells more.\n")
