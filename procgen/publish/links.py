"""Every link of a built site leads somewhere: files exist, anchors exist, nothing comes from outside.

The builder only warns of broken links in its own quiet way and knows nothing of those in HTML; so the built
pages themselves are read.
"""

from __future__ import annotations

from dataclasses import dataclass
from html.parser import HTMLParser
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


class _Page(HTMLParser):
    """The anchors and links of one page."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.anchors: set[str] = set()
        self.links: list[tuple[str, str]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Collect ids and everything that points somewhere."""
        for name, value in attrs:
            if value is None:
                continue
            if name == "id" or (name == "name" and tag == "a"):
                self.anchors.add(value)
            elif name in _LINKS:
                self.links.append((tag, value))


def broken_links(root: Path) -> tuple[BrokenLink, ...]:
    """Every broken link of the HTML files under `root`, page by page."""
    pages: dict[str, _Page] = {}
    for path in sorted(root.rglob("*.html")):
        page = _Page()
        page.feed(path.read_text(encoding="utf-8"))
        pages[path.relative_to(root).as_posix()] = page
    found: list[BrokenLink] = []
    for name, page in pages.items():
        for tag, link in dict.fromkeys(page.links):
            reason = _wrong(root, pages, name, tag, link)
            if reason:
                found.append(BrokenLink(name, link, reason))
    return tuple(found)


def _wrong(root: Path, pages: dict[str, _Page], page: str, tag: str, link: str) -> str:
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
