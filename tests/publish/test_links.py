"""The link check: every kind of broken link is found, and nothing else."""

from __future__ import annotations

from pathlib import Path

import pytest

from procgen.publish import broken_links


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
