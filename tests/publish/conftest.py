"""The built demonstration and a browser, once for all tests."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, sync_playwright

from procgen.disk import packaged
from procgen.pipeline.differing import Side, reviewed
from procgen.pipeline.side_by_side import side_by_side
from procgen.publish import build, comparison_page
from tests.diff.versions import AFT, PROCEDURE, STATION, edited, files, version
from tests.publish.changed import changed
from tests.publish.sites import sites
from tests.publish.test_changes import shown


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The whole demonstration, built."""
    out = tmp_path_factory.mktemp("published") / "site"
    build(sites(), packaged.templates(), out)
    return out


@pytest.fixture(scope="session")
def built_changed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site of a station of which every kind of page has changed: its folder."""
    out = tmp_path_factory.mktemp("changed") / "site"
    build([[changed()]], packaged.templates(), out)
    return out / changed().site.station.code


@pytest.fixture(scope="session")
def comparison(tmp_path_factory: pytest.TempPathFactory) -> str:
    """A comparison with differences of every class, as a file."""
    first = "  - check: {condition: unit-serviceable, unit: u42}\n"
    second = "  - check: {condition: unit-as-instructed, unit: u42}\n"
    texts = edited(
        (AFT, "combined: 4000 kg", "combined: 4100 kg"),
        (AFT, "wall: 90 mm", "wall: 95 mm"),
        (AFT, "name: lock 42", "name: middle lock"),
        (AFT, '"41": {x: [10.90 m', '"41": {x: [10.92 m'),
        (PROCEDURE, first + second, second + first),
        (STATION, "title: Kellbridge", "title: <b>Kell</b>"),
    )
    page = comparison_page(
        side_by_side(reviewed(Side(version(files())), Side(version(texts)), "N4T/answers.yaml")),
        packaged.templates(),
        "stations",
    )
    path: Path = tmp_path_factory.mktemp("comparison") / "comparison.html"
    path.write_text(page, "utf-8")
    return path.as_uri()


@pytest.fixture(scope="session")
def built_releases(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site of a station with three releases and a draft, the one in force and the draft: its folder."""
    out = tmp_path_factory.mktemp("releases") / "site"
    kept = [replace(one, revisions=()) for folder, one in shown().items() if folder in ("", "draft")]
    build([kept], packaged.templates(), out)
    return out / kept[0].site.station.code


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Chromium."""
    names = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
    found = next(filter(None, map(shutil.which, names)), None)
    assert found, f"these tests need a browser on the path: install one of {', '.join(names)}"
    with (
        sync_playwright() as playwright,
        playwright.chromium.launch(executable_path=found, args=["--no-sandbox"]) as launched,
    ):
        yield launched


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """A phone."""
    opened = browser.new_context(viewport={"width": 360, "height": 740}, has_touch=True)
    yield opened
    opened.close()
