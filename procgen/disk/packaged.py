"""Schemas, templates and data that travel with the package, in a wheel or in a checkout."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from procgen.diagnostics import ProcgenError

_PACKAGE = Path(__file__).resolve().parent.parent


def _folder(installed: str, in_checkout: str) -> Path:
    """A wheel carries the folder inside the package; a checkout has it beside the package."""
    for folder in (_PACKAGE / installed, _PACKAGE.parent / in_checkout):
        if folder.is_dir():
            return folder
    raise ProcgenError(f"this installation lacks its “{in_checkout}” folder; install it again")


def _texts(folder: Path, pattern: str) -> Mapping[str, str]:
    return {
        path.relative_to(folder).as_posix(): path.read_text(encoding="utf-8")
        for path in sorted(folder.glob(pattern))
        if path.is_file()
    }


@cache
def schemas() -> Mapping[str, object]:
    """Every JSON Schema by file name."""
    texts = _texts(_folder("_schemas", "schemas"), "*.json")
    return {name: json.loads(text) for name, text in texts.items()}


@cache
def data() -> Mapping[str, str]:
    """The packaged data files by name: the hazard list."""
    return _texts(_PACKAGE / "data", "*.yaml")


@cache
def rule_pages() -> Mapping[str, str]:
    """The rule pages by file name."""
    return _texts(_PACKAGE / "data" / "rules", "*.yaml")


@cache
def example() -> Mapping[str, str]:
    """The clean example stations that the rule pages edit, by path."""
    folder = _PACKAGE / "data" / "example"
    return {**_texts(folder, "**/*.yaml"), **_texts(folder, "*/releases/*.json")}


def templates() -> Path:
    """The folder of site templates."""
    return _folder("_site_templates", "site_templates")
