"""Explain one rule: what it looks for, why it matters, how to mend it, with an example that fails and one
that passes.
"""

from __future__ import annotations

import argparse

SUMMARY = "explain one rule, with a failing and a passing example"


def arguments(parser: argparse.ArgumentParser) -> None:
    """The command's own arguments."""
    parser.add_argument("rule", metavar="RULE", help="the name of a rule, as in a finding's [brackets]")


def run(options: argparse.Namespace) -> int:
    """Print the rule's page."""
    from difflib import get_close_matches

    from procgen import lint, report
    from procgen.diagnostics import ProcgenError
    from procgen.disk import packaged

    pages = packaged.rule_pages()
    page = f"{options.rule}.yaml"
    if page not in pages:
        near = get_close_matches(options.rule, [name.removesuffix(".yaml") for name in pages], n=3)
        hint = f"; did you mean {' or '.join(near)}?" if near else ""
        raise ProcgenError(f"there is no rule {options.rule}{hint} (`procgen rules` lists them)")
    (rule,) = lint.load_rules({page: pages[page]}).values()
    print(report.rule_text(rule))
    return 0
