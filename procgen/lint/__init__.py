"""The sense of what was written: data rules, safety-content rules, and the pages of all rules."""

from procgen.lint.pages import load_rules

__all__ = ["load_rules"]
