"""List every rule of the check, by family, with its severity and what it looks for."""

from __future__ import annotations

import argparse

from procgen.cli.options import format_option

SUMMARY = "list every rule of the check"


def arguments(parser: argparse.ArgumentParser) -> None:
    """The command's own arguments."""
    format_option(parser, "text", "json")


def run(options: argparse.Namespace) -> int:
    """Print the list."""
    from procgen import lint, report
    from procgen.disk import packaged

    rules = lint.load_rules(packaged.rule_pages())
    print(report.rules_json(rules) if options.format == "json" else report.rules_text(rules))
    return 0
