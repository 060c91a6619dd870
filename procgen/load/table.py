"""The reader of tables in CSV: a first line that names the columns, then a line for each row.

Fields are separated by commas, semicolons or tabs, whichever stands first in the first line. Blank lines and
lines that begin with “#” say nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from procgen.diagnostics import Finding, Place, Related, Span
from procgen.load.words import listed, offer
from procgen.source import Document
from procgen.source.document import Data

_Field = tuple[str, Span]


def read_table(
    file: str, text: str, needed: Sequence[str], known: Sequence[str]
) -> tuple[Document, tuple[Finding, ...]]:
    """The lines as `units`, a list of mappings with the place of every field, and what is wrong with the
    columns. Under wrong columns every row would look wrong, so there are no units then; a row with too many
    fields is left out.
    """
    rows: list[Data] = []
    values: dict[tuple[str | int, ...], Span] = {}
    keys: dict[tuple[str | int, ...], Span] = {}
    header: list[_Field] = []
    found: list[Finding] = []
    separator, columns_known = ",", True
    for number, line in enumerate(text.removeprefix("\ufeff").splitlines(), start=1):
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        if not header:
            separator = next((sign for sign in ",;\t" if sign in line), ",")
            header = [(word.casefold(), span) for word, span in _fields(line, number, separator)]
            found = list(_wrong_columns(file, header, needed, known))
            columns_known = not found
            continue
        fields = list(_fields(line, number, separator))
        if len(fields) > len(header):
            found.append(_too_many(file, fields, len(header), separator))
            continue
        index, row = len(rows), dict[str, Data]()
        for place, (word, span) in enumerate(fields):
            name, head = header[place]
            row[name] = word
            values["units", index, name], keys["units", index, name] = span, head
        values["units", index] = Span(number, 1, number, len(line) + 1)
        rows.append(row)
    data: Data = {"units": rows if columns_known else []}
    return replace(Document(file, text, data), value_spans=values, key_spans=keys), tuple(found)


def _wrong_columns(
    file: str, header: Sequence[_Field], needed: Sequence[str], known: Sequence[str]
) -> Iterator[Finding]:
    """What is wrong with the first line; its whole is named where it names no column at all."""
    first: dict[str, Span] = {}
    whole = Span(header[0][1].line, header[0][1].column, header[-1][1].line, header[-1][1].end_column)
    if not any(name in known for name, _ in header):
        message = "the first line names no column that is known here"
        way_out = f"write a first line “{','.join(needed)}” above the rows"
        yield Finding("missing-key", message, Place(file, span=whole), suggestion=way_out)
        return
    for name, span in header:
        place = Place(file, span=span)
        if name in first:
            related = (Related(Place(file, span=first[name]), "the first one"),)
            message, way_out = f"two columns are named “{name}”", "delete one of the two, or rename it"
            yield Finding("duplicate-key", message, place, suggestion=way_out, related=related)
        elif name not in known:
            yield Finding("unknown-key", f"“{name}” is not known here", place, suggestion=offer(name, known))
        first.setdefault(name, span)
    missing = [name for name in needed if name not in first]
    if missing and set(first) <= set(known):  # else one that is not known may be the missing one, misspelt
        words = " and ".join(f"“{name}”" for name in missing)
        message = f"no column is named {words}"
        way_out = f"name the columns in the first line: {listed(needed)}"
        yield Finding("missing-key", message, Place(file, span=whole), suggestion=way_out)


def _too_many(file: str, fields: Sequence[_Field], columns: int, separator: str) -> Finding:
    """More fields than columns: most often a comma within a number."""
    word, span = fields[columns]
    message = (
        f"the line has {len(fields)} fields, the first line names {columns} columns: “{word}” is too much"
    )
    way_out = "write the decimal point as “.” and thousands with a space, as in “1 588.5 kg”"
    if separator != ",":
        way_out = f"put text with “{separator}” in it in quotes"
    return Finding("unknown-key", message, Place(file, span=span), suggestion=way_out)


def _fields(line: str, number: int, separator: str) -> Iterator[_Field]:
    """The fields of a line, without quotes and spaces around them, each with its place. A quote that is not
    closed stays in its field.
    """
    start, quoted = 0, False
    for index, sign in enumerate([*line, separator]):
        if sign == '"':
            quoted = not quoted
        if index == len(line) or (sign == separator and not quoted):
            raw = line[start:index]
            word = raw.strip()
            column = start + len(raw) - len(raw.lstrip()) + 1
            yield _unquoted(word), Span(number, column, number, column + max(len(word), 1))
            start = index + 1


def _unquoted(word: str) -> str:
    whole = len(word) > 1 and word[0] == word[-1] == '"'
    return word[1:-1].replace('""', '"') if whole else word
