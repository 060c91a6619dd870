"""The link check: every kind of broken link is found, and nothing else."""

from __future__ import annotations

from html.parser import HTMLParser
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.publish import broken_links
from procgen.publish.links import PageLinks


def site_with(folder: Path, body: str) -> Path:
    (folder / "deep").mkdir()
    (folder / "index.html").write_text(f'<h1 id="top">x</h1>{body}', "utf-8")
    (folder / "deep" / "page.html").write_text('<p id="here"></p><a href="../index.html#top">up</a>', "utf-8")
    (folder / "deep" / "index.html").write_text("<p></p>", "utf-8")
    (folder / "style.css").write_text("", "utf-8")
    return folder


@pytest.mark.parametrize(
    "body",
    [
        '<a href="deep/page.html#here">x</a>',
        '<a href="#top">x</a><a href="">x</a>',
        '<a href="deep/">x</a><a href="deep">x</a><a href="./deep/../style.css?v=1">x</a>',
        '<link rel="stylesheet" href="style.css">',
        '<svg><use href="#top"/></svg>',
        '<a href="mailto:a@b">x</a><a href="https://example.org/">x</a><link rel="icon" href="data:,">',
    ],
)
def test_good_links_are_good(tmp_path: Path, body: str) -> None:
    assert broken_links(site_with(tmp_path, body)) == ()


@pytest.mark.parametrize(
    ("body", "reason"),
    [
        ('<a href="nowhere.html">x</a>', "leads to no file"),
        ('<a href="deep/page.html#gone">x</a>', "leads to no anchor"),
        ('<a href="#gone">x</a>', "leads to no anchor"),
        ('<svg><use href="#gone"/></svg>', "leads to no anchor"),
        ('<a href="../out.html">x</a>', "leads out of the site"),
        ('<a href="/index.html">x</a>', "leads out of the site"),
        ('<img src="gone.png">', "leads to no file"),
        ('<script src="https://example.org/x.js"></script>', "is loaded from outside"),
        ('<link rel="stylesheet" href="//example.org/x.css">', "is loaded from outside"),
    ],
)
def test_broken_links_are_found(tmp_path: Path, body: str, reason: str) -> None:
    (found,) = broken_links(site_with(tmp_path, body))
    assert found.reason == reason
    assert found.page == "index.html"


def test_the_built_demonstration_has_no_broken_link(built: Path) -> None:
    assert broken_links(built) == ()


class _Parsed(HTMLParser):
    """What a full parser finds: the independent answer."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.anchors: set[str] = set()
        self.links: list[tuple[str, str]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for name, value in attrs:
            if value is not None and (name == "id" or (name == "name" and tag == "a")):
                self.anchors.add(value)
            elif value is not None and name in ("href", "src", "xlink:href", "poster", "action"):
                self.links.append((tag, value))


def _agree(text: str) -> None:
    parsed = _Parsed()
    parsed.feed(text)
    parsed.close()
    read = PageLinks(text)
    assert (read.anchors, read.links) == (parsed.anchors, parsed.links)


_PIECES = (
    '<a href="x.html#y">',
    "<A HREF='b.html' id=q>",
    '<p title="a > b" id="c">',
    "<p data-id='no'>",
    "a id='text' b",
    "<!-- <a href='gone'> -->",
    "<script>if (a<b) x='<a href=\\'s\\'>'</script>",
    "<style>a{src:url(x)}</style>",
    '<use xlink:href="#z"/>',
    "<img src=pic.png>",
    '<a name="n&amp;m">',
    '<i name="n">',
    "</a>",
    "<a title=\"href='t'\">",
    "\n",
    " & ",
    "<input id>",
    '<script src="s.js"></script>',
    '<form action="?q">',
)


@given(st.lists(st.sampled_from(_PIECES), max_size=8))
@settings(max_examples=150, deadline=None)
def test_the_patterns_read_what_a_parser_reads(pieces: list[str]) -> None:
    _agree("".join(pieces))


def test_the_patterns_read_the_pages_of_every_kind_as_a_parser_does(built: Path) -> None:
    smallest: dict[str, Path] = {}
    for page in sorted(built.rglob("*.html"), key=lambda one: (one.stat().st_size, one)):
        smallest.setdefault(page.parent.name, page)
    assert len(smallest) > 5
    for page in smallest.values():
        _agree(page.read_text(encoding="utf-8"))
