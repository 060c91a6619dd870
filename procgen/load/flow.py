"""Plain data as one line of our YAML subset, for showing."""

from __future__ import annotations

import json
import re

_PLAIN = re.compile(r"[A-Za-z0-9](?:[A-Za-z0-9 ._/%()'-]*[A-Za-z0-9._/%()'-])?")
_SURPRISING = re.compile(r"(?i:true|false|yes|no|on|off|null|[0-9][0-9_.:e+-]*|0[xob].*)")


def flow(data: object) -> str:
    """The data in one line; text in quotes where a reader could take it for something else."""
    if isinstance(data, bool):
        return "true" if data else "false"
    if isinstance(data, dict):
        return "{" + ", ".join(f"{flow(key)}: {flow(value)}" for key, value in data.items()) + "}"
    if isinstance(data, list):
        return "[" + ", ".join(flow(item) for item in data) + "]"
    text = str(data)
    if isinstance(data, int) or (_PLAIN.fullmatch(text) and not _SURPRISING.fullmatch(text)):
        return text
    return json.dumps(text, ensure_ascii=False)
