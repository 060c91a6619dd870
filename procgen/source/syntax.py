"""Broken YAML in the writer's words: what the parser says is for people who write parsers."""

from __future__ import annotations

import re
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Words:
    """What is wrong and a way out; `at_start` points at where the broken thing begins."""

    message: str
    way_out: str
    at_start: bool = False


_KNOWN: tuple[tuple[str, Words], ...] = (
    (
        r"found character '\\t'",
        Words("a tab stands where only spaces can", "replace the tab by spaces; YAML indents with spaces"),
    ),
    (
        r"found character '(?P<sign>.)'",
        Words("text cannot begin with “{sign}”", "put the text in quotes"),
    ),
    (
        r"mapping values are not allowed",
        Words(
            "a colon stands where none can",
            "put text with “: ” in it in quotes; else look at the indent of this line and the one before",
        ),
    ),
    (
        r"sequence entries are not allowed",
        Words("a list begins in the line of its key", "put each “- ” in a line of its own, below the key"),
    ),
    (
        r"could not find expected ':'",
        Words(
            "this line has no colon", "write “key: value”, or indent it if it belongs to the line above", True
        ),
    ),
    (
        r"expected ',' or '\]'",
        Words(
            "the bracket “[” is not closed, or a comma is missing behind it", "add the “]” or the comma", True
        ),
    ),
    (
        r"expected ',' or '\}'",
        Words(
            "the bracket “{{” is not closed, or a comma is missing behind it",
            "add the “}}” or the comma",
            True,
        ),
    ),
    (
        r"found unexpected (?:end of stream|document separator)",
        Words("this quote is not closed", "add the closing quote", True),
    ),
    (
        r"expected <block end>, but found '<scalar>'",
        Words("text goes on behind the closing quote", "put the whole text in one pair of quotes"),
    ),
    (
        r"expected <block end>",
        Words(
            "this line does not fit the indents of the lines above",
            "indent it like the lines it belongs to; a list has no keys and a mapping no “- ”",
        ),
    ),
    (
        r"expected the node content, but found '<stream end>'",
        Words("a bracket is opened and not closed", "close it, or delete it"),
    ),
    (
        r"expected the node content",
        Words("a bracket closes what was not opened", "delete it, or open it before"),
    ),
    (
        r"found unknown escape character '(?P<sign>.)'",
        Words(
            "“\\{sign}” means nothing in double quotes", "use single quotes, or write “\\\\” for a backslash"
        ),
    ),
)
_ELSE = Words(
    "this is not YAML",
    "look at this line and the one before it: an indent, a missing colon, quote or bracket;"
    " text with “: ” or “#” in it goes in quotes",
)


def in_words(problem: str | None) -> Words:
    """What the parser's problem means to a writer."""
    for pattern, words in _KNOWN:
        match = re.match(pattern, problem or "")
        if match:
            return Words(words.message.format(**match.groupdict()), words.way_out.format(), words.at_start)
    return _ELSE
