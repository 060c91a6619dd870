"""Data as JSON text that every reader takes, our strict YAML reader too."""

from __future__ import annotations

import json
import re

_TROUBLE = re.compile("[\x7f-\x9f\u2028\u2029\ufeff\ufffe\uffff]")
"""Characters that JSON lets stand as they are, and that YAML refuses or takes for line breaks."""


def json_text(data: object) -> str:
    """`data` in the order it is given, indented by two, other languages' letters as they are."""
    text = json.dumps(data, ensure_ascii=False, indent=2)
    return _TROUBLE.sub(lambda match: f"\\u{ord(match[0]):04x}", text)
