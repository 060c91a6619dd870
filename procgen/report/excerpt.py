"""A line of source text with a mark under the part that is meant, as a terminal shows it."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass

from procgen.diagnostics import Span

_BREAKS = re.compile(r"\r\n|[\n\r\x85\u2028\u2029]")
"""Line breaks as YAML counts them, so that a span's line number finds the same line here."""
_TAB = 4
_WIDTH = 100
_LEAD = 30
"""How much of a long line is kept before the marked part."""


@dataclass(frozen=True, slots=True)
class Excerpt:
    """One source line ready to print, and the carets that go under it."""

    line: str
    carets: str


def source_line(text: str, number: int) -> str:
    """Line `number` (from 1) of a text without its break; empty when there is none."""
    lines = _BREAKS.split(text)
    return lines[number - 1] if 0 < number <= len(lines) else ""


def excerpt(text: str, span: Span) -> Excerpt:
    """The first line of `span`, with carets under the part of it that lies in the span.

    Tabs are drawn as four spaces, characters that cannot be printed as `�`; characters that take two
    columns get two carets. A long line is cut around the span, with `…` where something was left out.
    """
    line = source_line(text, span.line)
    start = min(max(span.column - 1, 0), len(line))
    end = min(span.end_column - 1, len(line)) if span.end_line == span.line else len(line.rstrip())
    end = max(end, start)
    first, last = _window(line, start, end)
    before, marked, after = line[first:start], line[start : min(end, last)], line[min(end, last) : last]
    opening, closing = "…" if first else "", "…" if last < len(line) else ""
    shown = opening + "".join(_drawn(char) for char in before + marked + after) + closing
    carets = " " * (len(opening) + _columns(before)) + "^" * max(_columns(marked), 1)
    return Excerpt(shown.rstrip(), carets)


def _window(line: str, start: int, end: int) -> tuple[int, int]:
    """Which part of a line to show: all of it, or the marked part with what stands around it."""
    if len(line) <= _WIDTH:
        return 0, len(line)
    first = max(0, min(start - _LEAD, len(line) - _WIDTH)) if start > _LEAD else 0
    return first, min(len(line), first + _WIDTH)


def _drawn(char: str) -> str:
    if char == "\t":
        return " " * _TAB
    return char if char.isprintable() or unicodedata.category(char) == "Zs" else "�"


def _columns(text: str) -> int:
    return sum(_column(char) for char in text)


def _column(char: str) -> int:
    if char == "\t":
        return _TAB
    if not char.isprintable():
        return 1
    if unicodedata.combining(char):
        return 0
    return 2 if unicodedata.east_asian_width(char) in "WF" else 1
