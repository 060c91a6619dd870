"""What the terminal and programs are shown: findings, plans, limits and rules as text and JSON.

Text and JSON end without a line break, ready to be printed; YAML and Markdown are whole files and end
with one.
"""

from procgen.report.figure_tables import figures_json, figures_text
from procgen.report.findings import count_line, findings_json, findings_markdown, findings_text
from procgen.report.limit_tables import limits_json, limits_text
from procgen.report.matrix import matrix_json, matrix_text
from procgen.report.plans import no_plan_json, no_plan_text, plan_json, plan_text, plan_yaml
from procgen.report.recoveries import recoveries_json, recoveries_text
from procgen.report.rules import rule_text, rules_json, rules_markdown, rules_text
from procgen.report.sarif import findings_sarif
from procgen.report.step_form import procedure_data, procedure_of

__all__ = [
    "count_line",
    "figures_json",
    "figures_text",
    "findings_json",
    "findings_markdown",
    "findings_sarif",
    "findings_text",
    "limits_json",
    "limits_text",
    "matrix_json",
    "matrix_text",
    "no_plan_json",
    "no_plan_text",
    "plan_json",
    "plan_text",
    "plan_yaml",
    "procedure_data",
    "procedure_of",
    "recoveries_json",
    "recoveries_text",
    "rule_text",
    "rules_json",
    "rules_markdown",
    "rules_text",
]
