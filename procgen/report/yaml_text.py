"""Plain data as YAML text that our strict reader reads back to the same data without a finding."""

from __future__ import annotations

import re
from collections.abc import Mapping

from procgen.report.step_form import Form

_PLAIN = re.compile(r"[A-Za-z](?:[A-Za-z0-9_./()+-]| (?=[A-Za-z0-9(]))*")
"""Text that may stand without quotes anywhere, in flow style too; all else is quoted."""
_WORDS = frozenset({"yes", "no", "on", "off", "y", "n", "true", "false", "null"})
"""Words that some reader of YAML takes for something else than text."""


def yaml_text(data: Mapping[str, Form]) -> str:
    """A document with one line for each entry of its mappings and lists.

    The top mapping is in block style, and so are the mappings and lists right under it; what lies deeper
    stands in flow style on its entry's line.
    """
    lines: list[str] = []
    for key, value in data.items():
        if isinstance(value, dict) and value:
            lines.append(f"{scalar(key)}:")
            lines += [f"  {scalar(name)}: {flow(entry)}" for name, entry in value.items()]
        elif isinstance(value, list) and value:
            lines.append(f"{scalar(key)}:")
            lines += [f"  - {_item(entry)}" for entry in value]
        else:
            lines.append(f"{scalar(key)}: {flow(value)}")
    return "\n".join(lines) + "\n"


def _item(value: Form) -> str:
    """A list entry: a mapping of one key as `key: value`, anything else in flow style."""
    if isinstance(value, dict) and len(value) == 1:
        ((key, entry),) = value.items()
        return f"{scalar(key)}: {flow(entry)}"
    return flow(value)


def flow(value: Form) -> str:
    """A value on one line."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value)
    if isinstance(value, str):
        return scalar(value)
    if isinstance(value, list):
        return f"[{', '.join(flow(entry) for entry in value)}]"
    return f"{{{', '.join(f'{scalar(key)}: {flow(entry)}' for key, entry in value.items())}}}"


def scalar(text: str) -> str:
    """Text as it must be written so that every reader takes it for this text: quoted where in doubt."""
    if _PLAIN.fullmatch(text) and text.lower() not in _WORDS:
        return text
    return '"' + "".join(_escaped(char) for char in text) + '"'


def _escaped(char: str) -> str:
    if char in '"\\':
        return "\\" + char
    if char.isprintable():
        return char
    code = ord(char)
    if code > 0xFFFF:
        return f"\\U{code:08x}"
    return f"\\u{code:04x}" if code > 0xFF else f"\\x{code:02x}"
