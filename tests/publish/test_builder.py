"""Building: all or nothing, and never over something that is not ours."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from procgen.diagnostics import ProcgenError
from procgen.publish import build_site

SETTINGS = (
    "site_name: Small\ntheme: {name: mkdocs, highlightjs: false}\nplugins: []\nuse_directory_urls: false\n"
)


def small(text: str = "# Hello") -> dict[str, str]:
    return {"mkdocs.yml": SETTINGS, "docs/index.md": text}


def listing(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


@pytest.fixture
def old_site(tmp_path: Path) -> Iterator[Path]:
    """A folder with a site that an earlier build left."""
    out = tmp_path / "out"
    out.mkdir()
    (out / ".procgen-site").write_text("", "utf-8")
    (out / "index.html").write_text("the old site", "utf-8")
    yield out
    assert listing(tmp_path) == ["out"], "something was left lying about"


def test_a_new_site_replaces_the_old_one(old_site: Path, capfd: pytest.CaptureFixture[str]) -> None:
    (old_site / "gone.html").write_text("a page that is no more", "utf-8")
    build_site({**small(), "A1/mkdocs.yml": SETTINGS, "A1/docs/index.md": "# Station"}, old_site)
    assert "Hello" in (old_site / "index.html").read_text("utf-8")
    assert "Station" in (old_site / "A1" / "index.html").read_text("utf-8")
    assert not (old_site / "gone.html").exists()
    assert not (old_site / "404.html").exists()
    assert capfd.readouterr() == ("", "")


@pytest.mark.parametrize(
    ("tree", "message"),
    [
        ({**small(), "mkdocs.yml": "theme: {name: no-such-theme}\nsite_name: x\n"}, "no-such-theme"),
        (small("[gone](nowhere.md)"), "nowhere.md"),
        (small('<p><a href="nowhere.html">gone</a></p>'), "leads to no file"),
        ({"mkdocs.yml": "site_name: [\n", "docs/index.md": "x"}, "builder failed"),
    ],
)
def test_a_failed_build_leaves_the_old_site(old_site: Path, tree: dict[str, str], message: str) -> None:
    with pytest.raises(ProcgenError, match=message):
        build_site(tree, old_site)
    assert (old_site / "index.html").read_text("utf-8") == "the old site"
    assert listing(old_site) == [".procgen-site", "index.html"]


def test_a_failed_first_build_leaves_nothing(tmp_path: Path) -> None:
    with pytest.raises(ProcgenError):
        build_site(small("[gone](nowhere.md)"), tmp_path / "out")
    assert listing(tmp_path) == []


def test_a_swap_that_fails_puts_the_old_site_back(old_site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    rename = Path.rename

    def stubborn(self: Path, target: Path) -> Path:
        if self.name == "site":
            raise OSError(28, "No space left on device")
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", stubborn)
    with pytest.raises(ProcgenError, match="No space left"):
        build_site(small(), old_site)
    assert (old_site / "index.html").read_text("utf-8") == "the old site"


def test_a_folder_that_is_not_ours_is_never_replaced(tmp_path: Path) -> None:
    out = tmp_path / "letters"
    out.mkdir()
    (out / "dear.txt").write_text("mine", "utf-8")
    with pytest.raises(ProcgenError, match="no site of ours"):
        build_site(small(), out)
    assert listing(out) == ["dear.txt"]
    with pytest.raises(ProcgenError, match="not a folder"):
        build_site(small(), out / "dear.txt")


def test_an_empty_folder_and_a_new_path_are_fine(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    build_site(small(), tmp_path / "empty")
    build_site(small(), tmp_path / "new" / "deep")
    assert (tmp_path / "empty" / "index.html").is_file()
    assert (tmp_path / "new" / "deep" / "index.html").is_file()


def test_what_a_killed_build_left_is_cleared_and_its_old_site_put_back(tmp_path: Path) -> None:
    dead = 2**22 + 1  # above the highest process number there is by default (memory)
    old = tmp_path / f".out.old-{dead}"
    old.mkdir()
    (old / ".procgen-site").write_text("", "utf-8")
    (old / "index.html").write_text("the old site", "utf-8")
    (tmp_path / f".out.new-{dead}-abc").mkdir()
    live = tmp_path / f".out.new-{os.getpid()}-abc"
    live.mkdir()
    with pytest.raises(ProcgenError):
        build_site(small("[gone](nowhere.md)"), tmp_path / "out")
    assert (tmp_path / "out" / "index.html").read_text("utf-8") == "the old site"
    assert listing(tmp_path) == [live.name, "out"]


def test_a_path_that_cannot_be_written_is_one_line(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    with pytest.raises(ProcgenError, match=r"cannot write|not a folder"):
        build_site(small(), tmp_path / "file" / "out")


def test_the_demonstration_has_its_places(built: Path) -> None:
    for path in ("index.html", "K1B/index.html", "K1B/cards/TR-FWD-loading.html", "N4T/holds/SR-AFT.html"):
        assert (built / path).is_file(), path
    assert not list(built.rglob("404.html"))
    assert not list(built.rglob("sitemap.xml"))
