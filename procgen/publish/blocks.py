"""Hooks for the builder: ready HTML goes round its Markdown parser, and drawings out of its search.

A page of ours is Markdown headings with ready HTML between them. Left to itself the builder parses that
HTML three times over, only to put it back as it was: most of a build's time. Here each stretch of it is kept
aside and a mark stands in its place until the page has been rendered. The tree that `station_tree` makes
stays plain Markdown that any builder can take; the pages are the same but for empty lines
(`tests/publish/test_blocks.py`).

The builder loads this file by its path, in a process of its own for each site.
"""

from __future__ import annotations

import os
import re
from typing import TYPE_CHECKING, Any

from jinja2 import Environment, FileSystemBytecodeCache
from mkdocs.plugins import CombinedEvent, event_priority

if TYPE_CHECKING:
    from mkdocs.structure.pages import Page

TEMPLATE_CACHE = "PROCGEN_BUILDER_TEMPLATES"
"""The environment variable that names a folder for the theme's templates once they are compiled."""

_HEADING = re.compile(r"((?:\A|(?<=\n\n))#{1,6} [^\n]*|(?<=>\n)#{1,6} [^\n]*\{: #[^\n]*\})\n")
"""After an empty line; right after HTML only where it has an anchor, as all of ours but the first have."""
_MARK = re.compile(r'<div data-block="(\d+)"></div>')
_UNSPOKEN = re.compile(r"<(svg|script|style)\b.*?</\1>", re.DOTALL)
"""What has no words to be found: a drawing's labels stand in the text beside it."""
_KEPT = "procgen-blocks"
_WHOLE = "procgen-content"


def on_page_markdown(markdown: str, *, page: Page, **_: Any) -> str:
    """Put a mark in the place of each stretch of ready HTML."""
    kept: list[str] = []
    parts = _HEADING.split(markdown)
    for n in range(0, len(parts), 2):
        block = parts[n].strip("\n")
        if block.startswith("<") and block.endswith(">"):
            parts[n] = f'\n<div data-block="{len(kept)}"></div>\n\n'
            kept.append(block)
        else:
            parts[n] = f"\n{parts[n]}"
    page.meta[_KEPT] = kept
    return "\n".join(parts)


def on_page_content(html: str, *, page: Page, **_: Any) -> str:
    """Put every stretch back in the place of its mark."""
    kept: list[str] = page.meta.pop(_KEPT)
    return _MARK.sub(lambda mark: kept[int(mark.group(1))], html)


@event_priority(100)
def _without_drawings(context: Any, /, *, page: Page, **_: Any) -> Any:
    """Before the search takes the page: leave out what nobody searches for."""
    page.meta[_WHOLE] = page.content
    page.content = _UNSPOKEN.sub("", page.content or "")
    return context


@event_priority(-100)
def _whole_again(context: Any, /, *, page: Page, **_: Any) -> Any:
    """After it: the page as it was, without the search's own attributes, which it takes out itself."""
    page.content = re.sub(r'\s?data-search-\w+="[^"]+"', "", page.meta.pop(_WHOLE))
    return context


on_page_context = CombinedEvent(_without_drawings, _whole_again)


def on_env(env: Environment, **_: Any) -> Environment:
    """Compile the theme's templates once for all sites of a build."""
    if folder := os.environ.get(TEMPLATE_CACHE):
        env.bytecode_cache = FileSystemBytecodeCache(folder)
    return env
