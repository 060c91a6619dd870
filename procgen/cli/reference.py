"""Write the reference pages that are generated: the data reference from the schemas, the rules from their
pages, the check values from the cases, the schema of records from the classes they are made of. Run it after
a change; the project's own check fails while they differ.
"""

from __future__ import annotations

import argparse
from pathlib import Path

SUMMARY = "write the generated reference pages (for contributors)"


def arguments(parser: argparse.ArgumentParser) -> None:
    """The command's own arguments."""
    parser.add_argument(
        "--out", type=Path, default=Path("docs"), metavar="DIR", help="where to (default: ./docs)"
    )


def run(options: argparse.Namespace) -> int:
    """Write the pages."""
    from procgen import lint, report
    from procgen.disk import packaged
    from procgen.load.reference import data_reference
    from procgen.pipeline.check_values import every_check_value
    from procgen.release.schema import record_schema
    from procgen.report.check_values import check_values_page
    from procgen.report.json_text import json_text

    options.out.mkdir(parents=True, exist_ok=True)
    rules = lint.load_rules(packaged.rule_pages())
    pages = {
        "data-reference.md": data_reference(packaged.schemas()),
        "rules.md": report.rules_markdown(rules),
        "check-values.md": check_values_page(every_check_value()),
        "record.schema.json": json_text(record_schema()) + "\n",
    }
    for name, text in pages.items():
        (options.out / name).write_text(text, encoding="utf-8")
        print(options.out / name)
    return 0
