"""The sense of what was written: data rules, safety-content rules, and the pages of all rules."""

from procgen.lint.engine import check_data, check_procedure
from procgen.lint.pages import load_rules
from procgen.lint.registry import RULES

__all__ = ["RULES", "check_data", "check_procedure", "load_rules"]
