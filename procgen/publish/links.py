"""Every link of a built site leads somewhere: files exist, anchors exist, nothing comes from outside.

The builder only warns of broken links in its own quiet way and knows nothing of those in HTML; so the built
pages themselves are read.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from html import unescape
from pathlib import Path, PurePosixPath
from urllib.parse import unquote, urlsplit

_LINKS = {"href", "src", "xlink:href", "poster", "action"}
_LOADED = {"img", "script", "link", "source", "iframe", "video", "audio", "use", "image"}


@dataclass(frozen=True, slots=True)
class BrokenLink:
    """A link that leads nowhere, or that loads something from outside."""

    page: str
    link: str
    reason: str

    def __str__(self) -> str:
        return f"{self.page}: “{self.link}” {self.reason}"


_COMMENT = re.compile(r"<!--.*?-->", re.DOTALL)
_TAG = re.compile(r"""<([a-zA-Z][^\s/>]*+)((?:[^"'>]++|"[^"]*+"|'[^']*+')*+)>""")
_ATTRIBUTE = re.compile(r"""([^\s"'<>/=]+)\s*=\s*(?:"([^"]*)"|'([^']*)'|([^\s"'>]+))""")
_OF_INTEREST = re.compile(r"\b(?:id|name|href|src|poster|action)\s*=", re.IGNORECASE)
_VERBATIM = re.compile(r"(<(script|style)\b[^>]*>).*?</\2\s*>", re.DOTALL | re.IGNORECASE)


class PageLinks:
    """The anchors and links of one page.

    Read by patterns: a site is tens of megabytes of tags, and a parser written in Python takes ten times as
    long over them. `tests/publish/test_links.py` holds it against one.
    """

    def __init__(self, text: str) -> None:
        self.anchors: set[str] = set()
        self.links: list[tuple[str, str]] = []
        for tag, attributes in _TAG.findall(_VERBATIM.sub(r"\1", _COMMENT.sub("", text))):
            if _OF_INTEREST.search(attributes):
                self._take(tag.lower(), attributes)

    def _take(self, tag: str, attributes: str) -> None:
        for name, *values in _ATTRIBUTE.findall(attributes):
            known, value = name.lower(), unescape("".join(values))
            if known == "id" or (known == "name" and tag == "a"):
                self.anchors.add(value)
            elif known in _LINKS:
                self.links.append((tag, value))


def broken_links(root: Path) -> tuple[BrokenLink, ...]:
    """Every broken link of the HTML files under `root`, page by page."""
    pages: dict[str, PageLinks] = {}
    for path in sorted(root.rglob("*.html")):
        pages[path.relative_to(root).as_posix()] = PageLinks(path.read_text(encoding="utf-8"))
    found: list[BrokenLink] = []
    for name, page in pages.items():
        for tag, link in dict.fromkeys(page.links):
            reason = _wrong(root, pages, name, tag, link)
            if reason:
                found.append(BrokenLink(name, link, reason))
    return tuple(found)


def _wrong(root: Path, pages: dict[str, PageLinks], page: str, tag: str, link: str) -> str:
    parts = urlsplit(link)
    if parts.scheme in ("data", "javascript", "mailto", "tel"):
        return ""
    if parts.scheme or parts.netloc:
        return "is loaded from outside" if tag in _LOADED else ""
    target = _resolved(page, unquote(parts.path))
    if target is None:
        return "leads out of the site"
    file = root / target
    if file.is_dir():
        target, file = f"{target}/index.html".removeprefix("./"), file / "index.html"
    if not file.is_file():
        return "leads to no file"
    anchor = unquote(parts.fragment)
    # `__` anchors are the theme's own switches, made by its script or as inputs.
    if anchor and target in pages and anchor not in pages[target].anchors:
        return "leads to no anchor"
    return ""


def _resolved(page: str, path: str) -> str | None:
    """A link's path as a path below the root; None if it leads above it."""
    if path.startswith("/"):
        return None
    if not path:
        return page
    steps: list[str] = list(PurePosixPath(page).parent.parts)
    for step in path.split("/"):
        if step == "..":
            if not steps:
                return None
            steps.pop()
        elif step not in ("", "."):
            steps.append(step)
    return "/".join(steps) or "."
