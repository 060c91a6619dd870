"""Places made concrete: path, line and column, looked up in the documents when they are shown."""

from __future__ import annotations

from collections.abc import Mapping

from procgen.diagnostics import Place, Span
from procgen.report.excerpt import source_line
from procgen.source import Document

Documents = Mapping[str, Document]
"""What was read, by the file name that places carry."""


def span_of(place: Place, documents: Documents) -> Span | None:
    """Where a place stands in its file; None when neither the file nor the place knows."""
    document = documents.get(place.file)
    return document.span(place) if document is not None else place.span


def shown_path(file: str, root: str) -> str:
    """A file's name with the folder it is shown under; a name that says where it is stays as it is."""
    if not root or not file or file.startswith(("/", "./", "../", "<")):
        return file
    return f"{root.rstrip('/')}/{file}"


def shown_place(place: Place, documents: Documents, root: str = "") -> str:
    """`path:line:column`, as far as it is known; empty for a place that no file says."""
    span = span_of(place, documents)
    path = shown_path(place.file, root)
    return f"{path}:{span.line}:{span.column}" if span is not None and path else path


def place_data(place: Place, documents: Documents, root: str = "") -> dict[str, object]:
    """A place in JSON: `file`, `line`, `column`, `end_line`, `end_column`, and the `text` of its line.

    Lines and columns count from 1, the end column is exclusive; they are null where no line is known.
    """
    span = span_of(place, documents)
    document = documents.get(place.file)
    return {
        "file": shown_path(place.file, root),
        "line": span.line if span else None,
        "column": span.column if span else None,
        "end_line": span.end_line if span else None,
        "end_column": span.end_column if span else None,
        "text": source_line(document.text, span.line) if span and document else "",
    }
