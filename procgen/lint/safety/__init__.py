"""Safety content: what a procedure must say besides what the machine does, one rule in each module."""

from procgen.lint.rule import ProcedureRule
from procgen.lint.safety import (
    check_for_wrong_unit,
    no_stop_instruction,
    report_missing,
    required_check_early,
    required_check_late,
    required_check_missing,
    section_missing,
    section_out_of_order,
    step_before_section,
    warning_misplaced,
    warning_missing,
    warning_repeated,
    wrong_signal_word,
)

PROCEDURE_RULES: tuple[ProcedureRule, ...] = (
    step_before_section.RULE,
    section_missing.RULE,
    section_out_of_order.RULE,
    warning_missing.RULE,
    warning_misplaced.RULE,
    warning_repeated.RULE,
    wrong_signal_word.RULE,
    required_check_missing.RULE,
    required_check_late.RULE,
    required_check_early.RULE,
    check_for_wrong_unit.RULE,
    report_missing.RULE,
    no_stop_instruction.RULE,
)
"""Rules about the safety content of one procedure, in the order in which they run."""
