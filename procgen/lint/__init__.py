"""The sense of what was written: data rules, safety-content rules, and the pages of all rules."""

from procgen.lint.engine import check_data, check_procedure
from procgen.lint.pages import load_rules
from procgen.lint.registry import RESTS_ON_FLEET, RULES
from procgen.lint.waivers import answer

__all__ = ["RESTS_ON_FLEET", "RULES", "answer", "check_data", "check_procedure", "load_rules"]
