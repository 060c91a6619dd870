"""Decimal commas in braces and brackets, where YAML takes a comma for the end of an entry."""

from __future__ import annotations

import re

from procgen.source.document import Data

_FRACTION = re.compile(r"[0-9]+ ?[A-Za-z%][A-Za-z0-9/%]*")
_WHOLE = re.compile(r"-?[0-9]+(?: [0-9]{3})*")


def parted_by_comma(data: Data, key: str) -> str | None:
    """The number that a writer meant where a mapping has `{width: 1` and then a key `562 m}` with nothing.

    None where it looks like anything else.
    """
    if not isinstance(data, dict) or data[key] is not None or not _FRACTION.fullmatch(key):
        return None
    keys = list(data)
    before = data[keys[keys.index(key) - 1]] if keys.index(key) else None
    return f"{before}.{key}" if is_bare_number(before) else None


def is_bare_number(data: Data) -> bool:
    """Whether a value is a whole number that has lost its fraction and its unit to a comma."""
    if isinstance(data, bool):
        return False
    return isinstance(data, int) or (isinstance(data, str) and _WHOLE.fullmatch(data) is not None)
