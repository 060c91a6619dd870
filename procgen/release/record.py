"""The canonical text of a manual record, its identity, and reading it back."""

from __future__ import annotations

import hashlib

from procgen.release.codec import LINES, Json, LineTable, RecordError, canonical, parsed
from procgen.release.decoding import decode
from procgen.release.encoding import encode
from procgen.results.record import FORMAT, Record


def record_text(record: Record) -> str:
    """The canonical text: one line of JSON, ended by a line break. Same record, same bytes in UTF-8."""
    table = LineTable()
    data = encode(record, Record, table)
    if not isinstance(data, dict):
        raise TypeError("a record is an object")
    lines: list[Json] = [*table.lines]
    return canonical({**data, "format": record.format, LINES: lines}) + "\n"


def read_record(text: str) -> Record:
    """The record that a canonical text stands for.

    Raises `RecordError` when the text is no record of a format we read, when it is not the canonical text
    of what it says, or when an input does not have the hash that stands beside it.
    """
    data = parsed(text)
    if not isinstance(data, dict) or type(data.get("format")) is not int:
        raise RecordError("not a record: it has no format number")
    if data["format"] != FORMAT:
        raise RecordError(f"format {data['format']} is not one we read (we read {FORMAT})")
    lines = data.pop(LINES, None)
    if not isinstance(lines, list) or not all(isinstance(line, str) for line in lines):
        raise RecordError("not a record: it has no table of lines")
    record: Record = decode(data, Record, LineTable([str(line) for line in lines]))
    for name, given in record.inputs.items():
        if sha256(given.text) != given.sha256:
            raise RecordError(f"inputs/{name}: the text is not the one its hash was made of")
    if record_text(record) != text:
        raise RecordError("says what its record says already: a default is written out")
    return record


def identity(text: str) -> str:
    """The identity of a manual: the SHA-256 of its record's canonical text."""
    return sha256(text)


def sha256(text: str) -> str:
    """The SHA-256 of a text in UTF-8, in hexadecimal digits.

    Bytes of a file that were no UTF-8 and were read with `surrogateescape` count as they were.
    """
    return hashlib.sha256(text.encode("utf-8", "surrogateescape")).hexdigest()
