"""Each command is named where people look for it, and no page names one that is not there."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from procgen.cli.main import COMMANDS

ROOT = Path(__file__).parents[2]
NAMED = re.compile(r"\bprocgen ([a-z][a-z-]*)\b(?![/.])")


def test_the_readme_names_every_command() -> None:
    named = set(NAMED.findall((ROOT / "README.md").read_text("utf-8")))
    assert set(COMMANDS) - named <= {"reference"}  # for contributors
    assert "procgen reference" in (ROOT / "DEVELOPERS.md").read_text("utf-8")


@pytest.mark.parametrize(
    "page", ["README.md", "DEVELOPERS.md", *sorted(f"docs/{path.name}" for path in ROOT.glob("docs/*.md"))]
)
def test_no_page_names_a_command_that_is_not_there(page: str) -> None:
    text = (ROOT / page).read_text("utf-8")
    shown = re.findall(r"`procgen ([a-z][a-z-]*)", text) + re.findall(
        r"^(?:    |\$ )procgen ([a-z-]+)", text, re.M
    )
    assert set(shown) <= set(COMMANDS)
